"""Details of work in a book: each text becomes what its kind of work takes, the rest goes into the note."""

from collections.abc import Iterator
from itertools import repeat
from typing import NamedTuple

from greens.actions.book_rows import Cells, Wrong, attempt
from greens.queries import book as books
from growin.agronomy.book_cells import days_of, in_unit
from growin.agronomy.book_columns import DETAIL, column
from growin.agronomy.book_words import plain_word
from growin.agronomy.fields import CHOICE, DATE, NUMBER, YES_NO, Field
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.works import WORKS

TICKS = {"x": "yes", "✓": "yes", "✔": "yes", "yes": "yes", "ja": "yes", "none": "no"}


class Details(NamedTuple):
    """``number`` is the same for the same texts of the same kind; ``beside`` has no place in the details."""

    number: int
    given: dict
    beside: str
    wrongs: tuple[Wrong, ...]


class DetailReader:
    """Reads the detail columns of a book that hold anything."""

    def __init__(self, cells: Cells):
        self.cells, self.known = cells, {}
        self.keys = [key for key in cells.places if key.startswith(DETAIL) and cells.has(key)]
        self.units = {key: books.unit_of(cells.book, key) for key in self.keys}

    def texts(self) -> Iterator[tuple[str, ...]]:
        """The texts of all detail columns, row by row."""
        if not self.keys:
            return repeat(())
        places = [self.cells.places[key][0] for key in self.keys]
        return (tuple([cells[place] for place in places]) for _, cells in self.cells.rows)

    def read(self, kind: str, texts: tuple[str, ...]) -> Details:
        """As :class:`Details`; the same texts are read once."""
        found = self.known.get((kind, texts))
        if found is None:
            found = self.known[kind, texts] = self._read(kind, texts)
        return found

    def _read(self, kind: str, texts: tuple[str, ...]) -> Details:
        fields = {field.key: field for field in WORKS[kind].fields}
        given, beside, wrongs = {}, [], []
        for key, text in zip(self.keys, texts, strict=True):
            field = fields.get(key.removeprefix(DETAIL))
            if text and field is None:
                beside.append(f"{column('diary', key).header}: {text}")
            elif text:
                value = attempt(field.label, lambda t, k=key, f=field: self.value(k, f, t), text)
                wrongs += [value] if value.__class__ is Wrong else []
                given[field.key] = value
        return Details(len(self.known), given, "; ".join(beside), tuple(wrongs))

    def value(self, key: str, field: Field, text: str):
        """A text as the judge takes it; raises ImpossibleValue."""
        if field.kind == NUMBER:
            return float(in_unit(text, field.unit, self.units[key], self.cells.comma))
        if field.kind == CHOICE:
            return chosen(field, text)
        if field.kind == YES_NO:
            return TICKS.get(plain_word(text), text)
        return self.day(field, text) if field.kind == DATE else text

    def day(self, field: Field, text: str) -> str:
        day = days_of([text], self.cells.order)[text]
        if day is None:
            raise ImpossibleValue(field.label, f"“{text[:40]}”", "a day such as 16/04/2026 or 2026-04-16")
        return day.isoformat()


def chosen(field: Field, text: str) -> str:
    """The stored word of a choice, by its words or its key; what is none is left for the judge."""
    meanings = {plain_word(words): key for key, words in field.choices}
    return meanings.get(plain_word(text), text)
