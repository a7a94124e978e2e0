"""Every change of a threshold since a rebuild began: who, when, from what to what, why."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from greens.models import Club, Green, Setting
from greens.queries import settings
from growin.agronomy.criteria import CRITERIA
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
        return is_looser(self.row.key, self.before, self.row.value)

    @property
    def words(self) -> str:
        return words_of(self.default)


def is_looser(key: str, before: float, after: float) -> bool:
    """Whether a change makes opening easier: an earlier gate, a higher opening height, a looser criterion."""
    if key.startswith("gates."):
        return after < before
    if key.startswith("heights.opening."):
        return after > before
    return loosens(key, before, after)


def words_of(default: Default) -> str:
    """A constant in words that say whose it is: "Rooting, turf: Cores taken"."""
    group = default.key.split(".")[1]
    if not default.key.startswith("criterion.") or group not in CRITERIA:
        return default.words
    kind = next((f", {kind}" for kind in ("turf", "seed") if group.endswith(f"_{kind}")), "")
    return f"{CRITERIA[group].words}{kind}: {default.words[:1].lower()}{default.words[1:]}"


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
