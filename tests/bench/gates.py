"""How strictly a time is held: as its target says in a measurement of its own, with head room in a check.

A check shares its machine with whatever else runs there, and one noisy minute must not decide. Counts of
queries and memory are held as they stand in both.
"""

import os

IN_FULL = "BENCH_IN_FULL" in os.environ
HEAD_ROOM = 1.0 if IN_FULL else 1.4


def gate(at_most: float) -> float:
    """The highest ratio of times that passes, for a target of ``at_most`` times."""
    return at_most * HEAD_ROOM
