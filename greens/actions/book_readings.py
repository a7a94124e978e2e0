"""Readings of a club's own book: rows become sets, each judged as if it were recorded."""

import re
from collections import Counter
from collections.abc import Callable, Iterator
from datetime import date, time
from itertools import repeat
from typing import NamedTuple

from greens.actions.book_details import TICKS, chosen
from greens.actions.book_rows import SAID_SO, Cells, Told, Wrong, attempt, is_left_out, wrongs_in
from greens.actions.readings import judged
from greens.models import Book, Green, Membership, ReadingSet
from greens.queries import book as books
from greens.queries.book_words import Words
from greens.queries.grounds import Grounds
from greens.validators.book_file import BookTable
from greens.validators.pasted import parted
from growin.agronomy.book_cells import figure_and_unit, in_unit
from growin.agronomy.book_columns import PROTOCOL
from growin.agronomy.book_words import plain_word
from growin.agronomy.fields import CHOICE, NUMBER, DetailError, Field
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.measure import SHAPE_HITS, SHAPE_ROLLS, SHAPE_YES_NO, Measure
from growin.agronomy.measures import MEASURES

SAY_HOW_FAR_EVERY = 1_000
BETWEEN = re.compile(r"\s*[;\n|]\s*")
ONE_GREEN = "Green: a set of readings is of one green."


class ReadingRow(NamedTuple):
    """One row of a book of readings; rows of one ``set`` are its values."""

    number: int
    set: str
    on: date
    at_time: time | None
    greens: tuple[Green, ...]
    measure: str
    taken_by: Membership
    note: str
    values: tuple[str, ...]
    points: str
    back: str
    unit: str
    protocol: tuple[str, ...]


class ReadingReader:
    """Rows of one book as sets of readings."""

    def __init__(self, book: Book, table: BookTable):
        self.book, self.words = book, Words(book)
        self.cells = Cells(book, table, self.words)
        self.grounds = Grounds(book.club)
        self.protocols = [key for key in self.cells.places if key.startswith(PROTOCOL)]

    def rows(self) -> Iterator[ReadingRow]:
        cells = self.cells
        return map(
            ReadingRow._make,
            zip(
                cells.numbers,
                cells.column("set", str, ""),
                cells.days("on", Wrong("", "Day: the day is missing.")),
                cells.times("at_time"),
                cells.greens("green"),
                cells.meanings("measure", empty=Wrong("", "Measure: what was read is missing.")),
                cells.meanings("taken_by", self.words.members, self.book.logged_by),
                cells.column("note", str, ""),
                self.texts("value"),
                cells.column("points", str, ""),
                cells.column("back", str, ""),
                cells.column("unit", str, books.unit_of(self.book, "value")),
                self.texts(*self.protocols),
                strict=False,
            ),
        )

    def texts(self, *keys: str) -> Iterator[tuple[str, ...]]:
        """The texts of all columns of these keys, row by row."""
        places = [place for key in keys for place in self.cells.places.get(key, ())]
        if not places:
            return repeat(())
        return (tuple([cells[place] for place in places]) for _, cells in self.cells.rows)

    def sets(self) -> Iterator[list[ReadingRow]]:
        """Rows by set. Without a number, rows of one value that agree in all else are one set."""
        gathered: dict[object, list[ReadingRow]] = {}
        is_one_a_row = len(self.cells.places.get("value", ())) == 1
        for row in self.rows():
            alike = is_one_a_row and not wrongs_in(row) and len(self.pieces(row)) == 1
            named = row.set or (alike and row[2:7] + row.protocol) or row.number
            gathered.setdefault(named, []).append(row)
        return iter(gathered.values())

    @staticmethod
    def pieces(row: ReadingRow) -> list[str]:
        return [text for text in row.values if text]

    # ---- one set ------------------------------------------------------------------------------------

    def given(self, rows: list[ReadingRow]) -> dict | list[Wrong]:
        """What the judge is given of a set, or everything that is wrong with it."""
        first, measure = rows[0], MEASURES[rows[0].measure]
        if len(first.greens) != 1:
            return [Wrong(", ".join(green.name for green in first.greens), ONE_GREEN)]
        values = [value for row in rows for value in self.values(measure, row)]
        protocol = self.protocol(measure, first)
        wrongs = wrongs_in(tuple(values)) + wrongs_in(tuple(protocol.values()))
        given = {"on": first.on, "at_time": first.at_time, "taken_by": first.taken_by, "values": values}
        return wrongs or given | {"protocol": protocol, "note": first.note}

    def values(self, measure: Measure, row: ReadingRow) -> list:
        """The values of a row in the shape of the measure, each of them may be a Wrong."""
        if measure.shape == SHAPE_ROLLS:
            return [self.rolls(measure, row)]
        read = {SHAPE_YES_NO: self.answer, SHAPE_HITS: lambda one: self.frame(one, row.points)}
        one = read.get(measure.shape) or (lambda text: self.figure(measure, text, row.unit))
        return [
            attempt(measure.label, one, piece)
            for text in self.pieces(row)
            for piece in self.single(measure, text)
        ]

    def single(self, measure: Measure, text: str) -> list[str]:
        """The single values of a cell: "45; 52; 60", "45 52 60"."""
        pieces = [piece for piece in BETWEEN.split(text) if piece]
        if len(pieces) > 1 or measure.shape in (SHAPE_YES_NO, SHAPE_HITS):
            return pieces
        found = attempt("", lambda one: figure_and_unit(one, self.cells.comma)[1], text)
        return parted(text, 3) if found.__class__ is Wrong or found[:1].isdigit() else pieces

    def figure(self, measure: Measure, text: str, unit: str) -> float | int:
        figure = in_unit(text, measure.unit, unit, self.cells.comma)
        return int(figure) if figure == int(figure) and measure.whole else float(figure)

    def answer(self, text: str) -> str:
        return TICKS.get(plain_word(text), text)

    def frame(self, text: str, points: str) -> dict:
        hits, _, of = text.partition("/")
        if not (of or points):
            raise ImpossibleValue("frame", f"“{text[:20]}”", "hits and points, such as 24/25")
        return {"hits": hits.strip(), "points": (of or points).strip()}

    def rolls(self, measure: Measure, row: ReadingRow) -> dict | Wrong:
        """Metres one way and back: "3.1; 3.0 | 2.9; 3.0", or the way back in a column of its own."""
        first, _, second = (row.values[0] if row.values else "").partition("|")
        ways = {"first": first, "second": row.back or second}
        read = {way: self.one_way(measure, text, row.unit) for way, text in ways.items()}
        wrongs = [one for rolls in read.values() for one in wrongs_in(tuple(rolls))]
        return wrongs[0] if wrongs else read

    def one_way(self, measure: Measure, text: str, unit: str) -> list:
        pieces = [piece for piece in re.split(r"\s*[;/\n]\s*", text.strip()) if piece]
        pieces = pieces if len(pieces) != 1 else parted(text, 3)
        return [
            attempt(measure.label, lambda one: self.figure(measure, one, unit), piece) for piece in pieces
        ]

    def protocol(self, measure: Measure, row: ReadingRow) -> dict:
        fields = {PROTOCOL + field.key: field for field in measure.protocol}
        written = zip(self.protocols, row.protocol, strict=False)
        return {
            fields[key].key: attempt(fields[key].label, lambda one, f=fields[key]: self.how(f, one), text)
            for key, text in written
            if text and key in fields
        }

    def how(self, field: Field, text: str):
        if field.kind == NUMBER:
            return float(in_unit(text, field.unit, comma=self.cells.comma))
        return chosen(field, text) if field.kind == CHOICE else text


def told(book: Book, table: BookTable, say: Callable[[int, int], None] = lambda done, of: None) -> Told:
    """What a book of readings says, judged as :func:`greens.actions.readings.record_readings` judges it."""
    reader, found = ReadingReader(book, table), Told()
    there, of = standing(book), len(reader.cells.rows)
    for count, rows in enumerate(reader.sets()):
        if count % SAY_HOW_FAR_EVERY == 0:
            say(count, of)
        tell(reader, there, found, rows)
    found.passed += reader.cells.passed
    return found


def tell(reader: ReadingReader, there: Counter, found: Told, rows: list[ReadingRow]) -> None:
    wrongs = [wrong for row in rows for wrong in wrongs_in(row)]
    if any(map(is_left_out, rows)):
        found.passed += [(row.number, SAID_SO) for row in rows]
        return
    given = wrongs or reader.given(rows)
    kept = given if isinstance(given, list) else judge(reader, rows[0], given)
    if not isinstance(kept, ReadingSet):
        found.fault(rows[0].number, kept)
    elif there[alike(kept)] > 0:
        there[alike(kept)] -= 1
        found.there += 1
    else:
        found.new.append(kept)


def judge(reader: ReadingReader, row: ReadingRow, given: dict) -> ReadingSet | list[Wrong]:
    green, grounds = row.greens[0], reader.grounds
    rebuilt, book = grounds.rebuild_begun(green, row.on), reader.book
    try:
        kept = judged(
            green=green,
            establishment=rebuilt,
            measure=MEASURES[row.measure],
            given=given,
            grounds=grounds,
        )
    except DetailError as refused:
        return [Wrong("", sentence) for sentence in refused.errors.values()]
    return ReadingSet(
        club=book.club,
        green=green,
        establishment=rebuilt,
        measure=row.measure,
        logged_by=book.logged_by,
        book=book,
        **kept,
    )


def alike(row: ReadingSet) -> tuple:
    return row.on, row.green_id, row.measure, str(row.values)


def standing(book: Book) -> Counter:
    """Sets that the record holds: the same day, green, measure and values count once each."""
    rows = book.club.reading_sets.filter(taken_back_at=None).only("on", "green_id", "measure", "values")
    return Counter(map(alike, rows.iterator()))


def keep(book: Book, found: Told) -> dict:
    """Write what is new; the caller's transaction holds it together."""
    ReadingSet.objects.bulk_create(found.new, batch_size=5_000)
    days = sorted(row.on for row in found.new)
    return {"first": days[0].isoformat(), "last": days[-1].isoformat()} if days else {}
