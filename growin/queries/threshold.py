"""Every change of a threshold since a rebuild began: who, when, from what to what, why."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from greens.models import Club, Green, Setting
from greens.queries import settings
from growin.agronomy.defaults import Default
from growin.agronomy.settings_table import DEFAULTS, loosens

# What a verdict hangs on: criteria, gates, the opening height.
THRESHOLDS = ("criterion.", "gates.", "heights.opening.")


@dataclass(frozen=True)
class Change:
    """One dated row against what held before it."""

    row: Setting
    default: Default
    before: float

    @property
    def is_looser(self) -> bool:
        """Whether it made opening easier."""
        if self.row.key.startswith("gates."):
            return self.row.value < self.before
        if self.row.key.startswith("heights.opening."):
            return self.row.value > self.before
        return loosens(self.row.key, self.before, self.row.value)


def changes(rows: Iterable[Setting]) -> list[Change]:
    """Rows of one club in the order of their days, each with the value that it replaced.

    A green's first own value replaces the club's.
    """
    held: dict[tuple, float] = {}
    found = []
    for row in rows:
        before = held.get((row.key, row.green_id), held.get((row.key, None), DEFAULTS[row.key].value))
        found.append(Change(row, DEFAULTS[row.key], before))
        held[row.key, row.green_id] = row.value
    return found


def since(club: Club, green: Green, first: date, last: date) -> list[Change]:
    """Changes of thresholds in force from ``first`` to ``last``, newest first; one query."""
    rows = (row for row in settings.rows(club, green) if row.key in DEFAULTS)
    asked = [one for one in changes(rows) if one.row.key.startswith(THRESHOLDS)]
    return [one for one in reversed(asked) if first <= one.row.in_force_from <= last]
