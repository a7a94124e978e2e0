"""Long lists a piece at a time: by day, the newest first, or by number; a cursor says where to go on.

A place stays right while rows come and go before it, which a number of a page does not.
"""

from dataclasses import dataclass
from datetime import date
from typing import NamedTuple, Self

from django.db.models import Model, Q, QuerySet

#: What a cursor looks like; every text that does is a place in every list.
CURSOR = "^[0-9]{1,7}-[0-9]{1,18}$"


class Cursor(NamedTuple):
    """A place in a list: after the row of this number, of this day (0 where a list has no days)."""

    day: int
    pk: int

    def __str__(self):
        return f"{self.day}-{self.pk}"

    @classmethod
    def read(cls, text: str) -> Self:
        return cls(*map(int, text.split("-")))

    @property
    def on(self) -> date:
        return date.fromordinal(min(max(self.day, 1), date.max.toordinal()))


@dataclass(frozen=True)
class Piece:
    """Some rows of a list, and the cursor of the next ones."""

    rows: list
    next: Cursor | None


def by_day(rows: QuerySet, after: Cursor | None, limit: int) -> Piece:
    """Rows with a day ``on``, the newest first."""
    rows = rows.order_by("-on", "-pk")
    if after:
        rows = rows.filter(Q(on__lt=after.on) | Q(on=after.on, pk__lt=after.pk))
    return _piece(rows, limit, lambda row: Cursor(row.on.toordinal(), row.pk))


def by_number(rows: QuerySet, after: Cursor | None, limit: int) -> Piece:
    """Rows in the order in which they were made."""
    rows = rows.order_by("pk")
    if after:
        rows = rows.filter(pk__gt=after.pk)
    return _piece(rows, limit, lambda row: Cursor(0, row.pk))


def _piece(rows: QuerySet, limit: int, place_of) -> Piece:
    found: list[Model] = list(rows[: limit + 1])
    has_more = len(found) > limit
    return Piece(found[:limit], place_of(found[limit - 1]) if has_more else None)
