"""Rows of a book as values: every different text is read once, and what cannot be read says why."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import time
from functools import cached_property
from itertools import repeat
from typing import NamedTuple

from greens.choices import BookKind
from greens.models import Book
from greens.queries import book as books
from greens.queries.book_words import ALL, LEAVE_OUT, Words
from greens.validators.book_file import BookTable
from growin.agronomy.book_cells import FIRST_DAY, POINT, days_of, figure_and_unit
from growin.agronomy.book_columns import column
from growin.agronomy.impossible import ImpossibleValue

TOTAL = re.compile(r"(?:(?:sub|grand)[ -]?)?totals?\b.*|sums?\b.{0,20}|averages?\b.{0,20}", re.IGNORECASE)
CLOCK = re.compile(r"([01]?\d|2[0-3])[:.h]([0-5]\d)(?::\d\d)?")
TOTALS = {"total", "totals", "sum", "grand total", "average"}
NOTHING_HERE = "a title, a note or a heading, not a row of the table"
A_TOTAL = "a row of totals"
HEADERS_AGAIN = "the headers again"
SAID_SO = "left out, as you said of such rows"


class Wrong(NamedTuple):
    """A cell that cannot be read: what stands there, and why with what would be right."""

    value: str
    sentence: str


class Fault(NamedTuple):
    """A row that cannot be kept, with its number in the sheet."""

    row: int
    value: str
    sentence: str


class LeaveOut(NamedTuple):
    """A word whose rows somebody said to leave out."""

    word: str


@dataclass
class Told:
    """What a book says: what is new, and what became of every other row."""

    new: list = field(default_factory=list)
    there: int = 0
    passed: list[tuple[int, str]] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)

    def fault(self, row: int, wrongs: list[Wrong]) -> None:
        self.faults += [Fault(row, *wrong) for wrong in wrongs]


class Cells:
    """The columns of a book under our keys."""

    def __init__(self, book: Book, table: BookTable, words: Words):
        self.book, self.words = book, words
        self.comma = books.comma_of(book, table) or POINT
        self.order = books.order_of(book, table) or ""
        self.headers, self.passed = table.headers, []
        self.rows = [row for row in table.rows if not self._passes(*row)]
        if book.fills_down:
            self._fill_down()
        self.numbers = [number for number, _ in self.rows]

    @cached_property
    def places(self) -> dict[str, list[int]]:
        found: dict[str, list[int]] = {}
        for place, key in sorted(books.keys_of(self.book).items()):
            found.setdefault(key, []).append(place)
        return found

    def _passes(self, number: int, cells: list[str]) -> bool:
        """Whether a row is none of the table's; it is noted with the reason."""
        filled = [cell for cell in cells if cell]
        why = HEADERS_AGAIN if cells == self.headers else self._no_row(cells, filled)
        if why:
            self.passed.append((number, why))
        return bool(why)

    def _no_row(self, cells: list[str], filled: list[str]) -> str:
        leads = self.places.get("on") or self.places.get("name") or [0]
        lead, is_store = cells[leads[0]], self.book.kind == BookKind.PRODUCTS
        if lead[:1].isdigit():
            return ""
        first = lead or filled[0]
        if first.lower().rstrip(" :") in TOTALS or (TOTAL.fullmatch(first) and not is_store):
            return A_TOTAL
        goes_on = self.book.fills_down and first[:1].isdigit()
        return NOTHING_HERE if len(filled) < 2 and not goes_on and not (is_store and lead) else ""

    def _fill_down(self) -> None:
        place, last = self.places["on"][0], ""
        for _, cells in self.rows:
            last = cells[place] = cells[place] or last

    # ---- columns ------------------------------------------------------------------------------------

    def has(self, key: str) -> bool:
        """Whether the column is there and holds anything."""
        return key in self.places and any(self.texts(key))

    def texts(self, key: str) -> list[str]:
        place = self.places[key][0]
        return [cells[place] for _, cells in self.rows]

    def column(self, key: str, read: Callable[[str], object], empty: object = None) -> Iterator:
        """The column as values or Wrongs; ``empty`` where nothing stands, or where there is none."""
        if key not in self.places:
            return repeat(empty)
        texts = self.texts(key)
        header = column(self.book.kind, key).header
        read_once = {text: attempt(header, read, text) for text in set(texts) if text} | {"": empty}
        return map(read_once.__getitem__, texts)

    def days(self, key: str, empty: object = None) -> Iterator:
        if key not in self.places:
            return repeat(empty)
        read = days_of(self.texts(key), self.order)
        return self.column(key, lambda text: a_day(text, read.get(text)), empty)

    def times(self, key: str) -> Iterator:
        return self.column(key, a_time)

    def figures(self, key: str, whole: bool = False) -> Iterator:
        return self.column(key, lambda text: self.figure(text, whole))

    def figure(self, text: str, whole: bool = False):
        number, _ = figure_and_unit(text, self.comma)
        if whole and number != int(number):
            raise ImpossibleValue("figure", f"“{text}”", "a whole number")
        return int(number) if whole else number

    def meanings(self, key: str, rows: dict | None = None, empty: object = None) -> Iterator:
        """What the words of a column mean; ``rows`` turns an id into its row."""
        once = self.book.said_once.get(key)
        if key not in self.places and once:
            return repeat(rows[int(once)] if rows else once)
        return self.column(key, lambda text: self._meaning(key, text, rows), empty)

    def _meaning(self, key: str, text: str, rows: dict | None):
        meaning = self.words.said(key, text)[0][1]
        if meaning is None:
            raise ImpossibleValue(
                column(self.book.kind, key).header, f"“{text[:40]}”", "a word you gave a meaning"
            )
        if meaning == LEAVE_OUT:
            return LeaveOut(text)
        return rows[int(meaning)] if rows else meaning

    def greens(self, key: str) -> Iterator:
        """The greens of each row, as a tuple."""
        once = self.book.said_once.get(key)
        if key not in self.places and once:
            return repeat(self._greens_of([once]))
        return self.column(key, lambda text: self._greens_named(key, text), Wrong("", "Say on which green."))

    def _greens_named(self, key: str, text: str):
        said = self.words.said(key, text)
        if any(meaning is None for _, meaning in said) or not said:
            raise ImpossibleValue("Green", f"“{text[:40]}”", "one of the club's greens")
        meanings = [meaning for _, meaning in said]
        return LeaveOut(text) if LEAVE_OUT in meanings else self._greens_of(meanings)

    def _greens_of(self, meanings: list) -> tuple:
        if ALL in meanings:
            return tuple(self.words.greens.values())
        return tuple(self.words.greens[pk] for pk in dict.fromkeys(map(int, meanings)))


def attempt(header: str, read: Callable[[str], object], text: str):
    """The value of a cell, or what is wrong with it."""
    try:
        return read(text)
    except ImpossibleValue as refused:
        return Wrong(text[:80], str(ImpossibleValue(header, refused.value, refused.right)))
    except KeyError:
        return Wrong(text[:80], f"{header}: “{text[:40]}” means a row that is gone from the record since.")


def a_day(text: str, day):
    if day is None:
        raise ImpossibleValue("Day", f"“{text[:40]}”", "a day such as 16/04/2026 or 2026-04-16")
    if day < FIRST_DAY:
        raise ImpossibleValue("Day", f"“{text[:40]}”", f"{FIRST_DAY:%d/%m/%Y} or later")
    return day


def a_time(text: str) -> time:
    found = CLOCK.fullmatch(text.strip())
    if not found:
        raise ImpossibleValue("Time", f"“{text[:40]}”", "a time of day such as 08:30")
    return time(int(found[1]), int(found[2]))


def wrongs_in(cells: tuple) -> list[Wrong]:
    return [cell for cell in cells if cell.__class__ is Wrong]


def is_left_out(cells: tuple) -> bool:
    return any(cell.__class__ is LeaveOut for cell in cells)
