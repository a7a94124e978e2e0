"""Defaults of the trade: every constant with its unit, range, mark and source.

A table of them stands beside the subject it serves (``gates.DEFAULTS``,
``feeding.DEFAULTS`` …); :mod:`growin.agronomy.settings_table` gathers them, so that a
club can override any by a dated row. Functions never read a table by themselves:
they take the values as arguments.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

PUBLISHED, COMMON_PRACTICE, FROM_MEMORY, OUR_JUDGEMENT = (
    "published",
    "common practice",
    "from memory",
    "our judgement",
)
CONFIRM = "confirm with your agronomist"


@dataclass(frozen=True)
class Default:
    """One constant: ``key`` in dotted words, ``value`` in ``unit``, the range that can be meant.

    ``mark`` is one of the four marks above; ``source`` names the print, empty when there is none.
    """

    key: str
    value: float
    unit: str
    words: str
    low: float
    high: float
    mark: str
    source: str = ""

    @property
    def provenance(self) -> str:
        """Mark and source as one phrase for the screen."""
        stands = f"{self.mark}: {self.source}" if self.source else self.mark
        return stands if self.mark == PUBLISHED else f"{stands}; {CONFIRM}"


def table(*defaults: Default) -> Mapping[str, Default]:
    """Defaults by key, in the order given.

    Raises
    ------
    ValueError
        When a key stands twice or a value lies outside its own range.
    """
    by_key = {one.key: one for one in defaults}
    if len(by_key) != len(defaults):
        raise ValueError("a key stands twice in one table of defaults")
    for one in defaults:
        if not one.low <= one.value <= one.high:
            raise ValueError(f"{one.key}: {one.value} lies outside {one.low} to {one.high}")
    return by_key


def values(*tables: Mapping[str, Default]) -> dict[str, float]:
    """Plain values by key, ready to be overridden by a club's own."""
    return {key: one.value for entries in tables for key, one in entries.items()}


def merge(tables: Iterable[Mapping[str, Default]]) -> dict[str, Default]:
    """All tables as one, refusing a key that stands in two of them.

    Raises
    ------
    ValueError
        When two tables claim the same key.
    """
    merged: dict[str, Default] = {}
    for entries in tables:
        twice = merged.keys() & entries.keys()
        if twice:
            raise ValueError(f"keys in two tables: {sorted(twice)}")
        merged.update(entries)
    return merged
