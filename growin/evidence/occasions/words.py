"""How what is told is put together: lines, lists and the names of what it is about."""

import hashlib
from collections.abc import Iterable, Mapping


def lines(*some: str) -> str:
    """Sentences below each other; empty ones are left out."""
    return "\n".join(one for one in some if one)


def listed(some: Iterable[str]) -> str:
    """Each on a line of its own, with a dash before it."""
    return "\n".join(f"– {one}" for one in some)


def digest_of(states: Mapping[str, str]) -> str:
    """What tells one set of states from another in a key."""
    return hashlib.sha256(repr(sorted(states.items())).encode()).hexdigest()[:12]
