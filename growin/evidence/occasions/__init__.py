"""What people must be told: one module for each kind, each from a look at a club to what is new in it."""

from growin.evidence.occasions.all_kinds import Seen, seen_in

__all__ = ["Seen", "seen_in"]
