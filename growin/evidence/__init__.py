"""What is known of a green, gathered from its record, and the verdict it comes to."""

from growin.evidence.verdict import Judged, judged, judged_all, verdict_of, verdicts

__all__ = ["Judged", "judged", "judged_all", "verdict_of", "verdicts"]
