"""Everything of a club as plain rows, a noun at a time: what its fair copy is written from.

Rows come one by one from the database, so that twenty seasons need no more memory than one. Diary,
products and readings stand in the columns in which a book is brought in. Nobody's address is in it.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from greens.models import Club
from growin.agronomy.book_columns import DIARY, PRODUCTS, READINGS
from growin.queries import fair_copy_books as books
from growin.queries import fair_copy_rest as rest

#: Name, headers, rows of a club.
NOUNS: tuple[tuple[str, list[str], Callable[[Club], Iterator[list]]], ...] = (
    ("diary", books.headers(DIARY), books.diary_rows),
    ("readings", books.headers(READINGS), books.reading_rows),
    ("products", books.headers(PRODUCTS), books.product_rows),
    ("over limits", rest.OVER_LIMITS, rest.over_limits),
    ("stock", rest.STOCK, rest.stock_rows),
    ("weather", rest.WEATHER_DAYS, rest.weather_rows),
    ("greens", rest.GREENS, rest.green_rows),
    ("rebuilds", rest.REBUILDS, rest.rebuild_rows),
    ("decisions", rest.DECISIONS, rest.decision_rows),
    ("settings", rest.SETTINGS, rest.setting_rows),
    ("changes", rest.CHANGES, rest.trail_rows),
)


@dataclass(frozen=True)
class Part:
    """One noun: its name, its headers, and its rows, read when they are asked for."""

    name: str
    headers: list[str]
    rows: Callable[[], Iterator[list]]


def parts(club: Club) -> list[Part]:
    """All of a club, in the order in which it is told."""
    return [Part(name, headers, partial(rows, club)) for name, headers, rows in NOUNS]
