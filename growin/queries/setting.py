"""The constants of the trade as a club has them, in the order of their subjects."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date

from greens.models import Club, Setting
from greens.queries import settings
from growin.agronomy.defaults import Default
from growin.agronomy.settings_table import TABLES
from growin.queries.threshold import words_of


@dataclass(frozen=True)
class Line:
    """One constant: the trade's default and the club's own values that count or will."""

    default: Default
    own: tuple[Setting, ...]

    @property
    def words(self) -> str:
        return words_of(self.default)


@dataclass(frozen=True)
class Subject:
    """The constants under one heading."""

    heading: str
    lines: tuple[Line, ...]

    @property
    def own_count(self) -> int:
        return sum(bool(one.own) for one in self.lines)


def subjects(club: Club, on: date) -> list[Subject]:
    """Every constant with the club's own values that count on a day or are still to come; one query."""
    own = _newest_of_each(club, on)
    return [
        Subject(heading, tuple(Line(one, own.get(key, ())) for key, one in table.items()))
        for heading, table in TABLES
    ]


def _newest_of_each(club: Club, on: date) -> dict[str, tuple[Setting, ...]]:
    """By key: for the club and for each green the row in force, and every row to come."""
    kept: dict[str, dict] = defaultdict(dict)
    for row in settings.of_club(club):
        scope = (row.green_id, row.in_force_from) if row.in_force_from > on else (row.green_id, None)
        kept[row.key][scope] = row
    return {key: tuple(rows.values()) for key, rows in kept.items()}
