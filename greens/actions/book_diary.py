"""A diary of a club's own: every row judged as if it were logged, and kept as one piece."""

from collections import Counter
from collections.abc import Callable, Iterator
from datetime import date, time
from itertools import repeat
from typing import NamedTuple

from greens.actions import many_works as many
from greens.actions.book_details import DetailReader, Details
from greens.actions.book_rows import SAID_SO, Cells, Told, Wrong, attempt, is_left_out, wrongs_in
from greens.actions.possible import Said
from greens.models import Book, Green, Label, Membership, Product
from greens.queries import book as books
from greens.queries.book_words import Words
from greens.queries.grounds import Grounds
from greens.validators.book_file import BookTable
from growin.agronomy.amounts import DEPTH_MM
from growin.agronomy.book_cells import Amount, amount_of, in_unit
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.works import WORKS

SAY_HOW_FAR_EVERY = 2_000
NO_AMOUNT = "Amount: how much of the product is missing."
NO_PRODUCT = "Product: an amount is given and no product named."
TWICE_SAID = "Entry: rows of one entry must agree in day, work and greens."


class DiaryRow(NamedTuple):
    """One row of a diary as values; several rows of one ``entry`` are a tank of several products."""

    number: int
    entry: str
    on: date
    at_time: time | None
    greens: tuple[Green, ...]
    areas: str
    kind: str
    product: Product | None
    label: int | None
    amount: Amount | None
    minutes: int | None
    done_by: Membership
    note: str
    texts: tuple[str, ...]


class DiaryReader:
    """Rows of one diary as work that somebody said was done."""

    def __init__(self, book: Book, table: BookTable):
        self.book, words = book, Words(book)
        self.words, self.cells = words, Cells(book, table, words)
        self.details, self.grounds = DetailReader(self.cells), Grounds(book.club)
        self.labels = {pk: labels_of(product) for pk, product in words.products.items()}
        self.amounts: dict[tuple, int | Wrong] = {}

    def rows(self) -> Iterator[DiaryRow]:
        cells, by = self.cells, self.book.logged_by
        return map(
            DiaryRow._make,
            zip(
                cells.numbers,
                cells.column("entry", str, ""),
                cells.days("on", Wrong("", "Day: the day is missing.")),
                cells.times("at_time"),
                cells.greens("greens"),
                cells.column("areas", str, ""),
                cells.meanings("kind", empty=Wrong("", "Work: what was done is missing.")),
                cells.meanings("product", self.words.products),
                cells.figures("label", whole=True),
                self.amounts_written(),
                cells.column("minutes", self.minutes),
                cells.meanings("done_by", self.words.members, by),
                cells.column("note", str, ""),
                self.details.texts(),
                strict=False,
            ),
        )

    def minutes(self, text: str) -> int:
        minutes = in_unit(text, "min", books.unit_of(self.book, "minutes"), self.cells.comma)
        if minutes != int(minutes):
            raise ImpossibleValue("Labour", f"“{text}”", "whole minutes")
        return int(minutes)

    def amounts_written(self) -> Iterator[Amount | Wrong | None]:
        """The amounts, each in the unit of its cell, of its row, of the header, or as was said."""
        cells, usual = self.cells, books.unit_of(self.book, "amount")
        if "amount" not in cells.places:
            return repeat(None)
        units = cells.texts("unit") if "unit" in cells.places else repeat("")
        pairs = list(zip(cells.texts("amount"), units, strict=False))
        read = {pair: self._amount(*pair, usual) for pair in set(pairs)}
        return map(read.__getitem__, pairs)

    def _amount(self, text: str, unit: str, usual: str) -> Amount | Wrong | None:
        if not text:
            return None
        return attempt("Amount", lambda one: amount_of(one, unit or usual, self.cells.comma), text)

    # ---- entries ------------------------------------------------------------------------------------

    def entries(self) -> Iterator[list[DiaryRow]]:
        """Rows by entry, in the order of the sheet; a row without a number is one of its own."""
        gathered: dict[object, list[DiaryRow]] = {}
        for row in self.rows():
            gathered.setdefault(row.entry or -row.number, []).append(row)
        return iter(gathered.values())

    def said(self, rows: list[DiaryRow]) -> Said | list[Wrong]:
        """The work of some rows, its lines known, or everything that is wrong with them."""
        first = rows[0]
        details = self.details.read(first.kind, first.texts)
        if len(rows) > 1 and any(
            (one.on, one.kind, one.greens) != (first.on, first.kind, first.greens) for one in rows
        ):
            return [Wrong(first.entry, TWICE_SAID)]
        lines = self.lines(first)
        dm2 = sum(line.area_dm2 for line in lines) if all(line.area_dm2 for line in lines) else 0
        given, products, wrongs = self.brought(rows, details, dm2)
        wrongs = [*details.wrongs, *wrongs]
        return wrongs or Said(
            self.book.club,
            first.kind,
            first.on,
            first.done_by,
            first.greens,
            given,
            products,
            self.note(first, details),
            first.at_time,
            first.minutes,
            lines,
        )

    def note(self, row: DiaryRow, details: Details) -> str:
        return "; ".join(filter(None, (row.note, details.beside))) if details.beside else row.note

    def lines(self, row: DiaryRow) -> tuple[many.Line, ...]:
        """The greens with rebuild and area of the day; an area that the row names goes before."""
        known = self.areas(row.areas) if row.areas else []
        areas = known if len(known) == len(row.greens) else repeat(0)
        on, grounds = row.on, self.grounds
        return tuple(
            [
                many.Line(green, grounds.rebuild_on(green, on), area or grounds.area_on(green, on))
                for green, area in zip(row.greens, areas, strict=False)
            ]
        )

    def areas(self, text: str) -> list[int]:
        """dm² of the greens of a row; nothing where the cell holds no areas."""
        try:
            found = [in_unit(one, "m²", comma=self.cells.comma) for one in text.split(";")]
        except ImpossibleValue:
            return []
        return [round(area * 100) for area in found]

    def brought(self, rows: list[DiaryRow], details: Details, dm2: int):
        """Details, products with whole amounts, and what is wrong with these."""
        given, products, wrongs = details.given, [], []
        for row in rows:
            amount = row.amount
            if row.product is None and amount is None:
                continue
            if row.product is None and is_depth(row.kind, amount):
                given = given | {"depth_mm": float(amount.figure)}
                continue
            found = self.product(row, dm2)
            (wrongs if found.__class__ is Wrong else products).append(found)
        given = given | {"text": rows[0].note} if needs_words(rows[0], given) else given
        return given, tuple(products), wrongs

    def product(self, row: DiaryRow, dm2: int) -> tuple[Label, int] | Wrong:
        if row.product is None:
            return Wrong("", NO_PRODUCT)
        if row.amount is None:
            return Wrong(row.product.name, NO_AMOUNT)
        label = self.label(row)
        if label is None:
            return Wrong(row.product.name, f"Label: {row.product} has no label {row.label}.")
        key = row.amount, label.pk, dm2
        if key not in self.amounts:
            self.amounts[key] = whole(row.amount, label, dm2)
        amount = self.amounts[key]
        return amount if amount.__class__ is Wrong else (label, amount)

    def label(self, row: DiaryRow) -> Label | None:
        """The one that is named, else the one in force that day, else the first."""
        labels = self.labels[row.product.pk]
        if row.label is not None:
            return next((one for one in labels if one.revision == row.label), None)
        return next(
            (one for one in reversed(labels) if one.from_day <= row.on), labels[0] if labels else None
        )


def labels_of(product: Product) -> list[Label]:
    """All labels of a product, the first one first, each knowing its product."""
    labels = sorted(product.labels.all(), key=lambda one: one.revision)
    for label in labels:
        label.product = product
    return labels


def whole(amount: Amount, label: Label, dm2: int) -> int | Wrong:
    if amount.counts != label.unit and amount.way != DEPTH_MM:
        counted = label.get_unit_display()
        return Wrong(str(amount.figure), f"Amount: {label.product} is counted in {counted} by its label.")
    try:
        return amount.whole(dm2, label.bulk_density_t_m3)
    except ImpossibleValue as refused:
        return Wrong(str(amount.figure), f"Amount: {refused}")


def is_depth(kind: str, amount: Amount) -> bool:
    """Whether an amount is the depth of water of a work that has one."""
    return amount.way == DEPTH_MM and any(field.key == "depth_mm" for field in WORKS[kind].fields)


def needs_words(row: DiaryRow, given: dict) -> bool:
    """A note of the diary is its note where no column holds its words."""
    return row.kind == "note" and "text" not in given


def told(book: Book, table: BookTable, say: Callable[[int, int], None] = lambda done, of: None) -> Told:
    """What a diary says, judged as :func:`greens.actions.diary.record_work` judges it.

    ``say`` hears how many of how many rows are judged. Entries are judged in the order of the sheet, each
    against those before it.
    """
    reader, found = DiaryReader(book, table), Told()
    judge = many.Judge(reader.grounds)
    there, of = Standing(reader), len(reader.cells.rows)
    for count, rows in enumerate(reader.entries()):
        if count % SAY_HOW_FAR_EVERY == 0:
            say(count, of)
        tell(reader, judge, there, found, rows)
    found.passed += reader.cells.passed
    return found


def tell(
    reader: DiaryReader, judge: many.Judge, there: "Standing", found: Told, rows: list[DiaryRow]
) -> None:
    """Judge the rows of one entry."""
    wrongs = [wrong for row in rows for wrong in wrongs_in(row)]
    if any(map(is_left_out, rows)):
        found.passed += [(row.number, SAID_SO) for row in rows]
        return
    said = wrongs or reader.said(rows)
    if isinstance(said, Said):
        said = judge.judged(said)
    if not isinstance(said, Said):
        found.fault(rows[0].number, [Wrong(*one) for one in said])
    elif standing := there.take(said):
        found.there += standing is True
        if standing is not True:
            found.fault(rows[0].number, [standing])
    else:
        found.new.append((said, judge.over_limit(said)))


class Standing:
    """What the record holds already: the same day, green, work, products and amounts count once each."""

    def __init__(self, reader: DiaryReader):
        days = [row for row in set(reader.cells.days("on")) if row.__class__ is date]
        span = (min(days), max(days)) if days else (date.max, date.min)
        self.counts = Counter(reader.grounds.entries_there(*span))

    def take(self, said: Said) -> bool | Wrong:
        """True when it stands there, False when it is new, a Wrong when some of its greens have it."""
        if not self.counts:
            return False
        products = tuple(sorted((label.product_id, amount) for label, amount in said.products))
        keys = [(said.on, said.kind, green.pk, products) for green in said.greens]
        there = [key for key in keys if self.counts[key] > 0]
        if there and len(there) < len(keys):
            names = ", ".join(
                green.name for green in said.greens if self.counts[said.on, said.kind, green.pk, products] > 0
            )
            return Wrong(
                names, f"Greens: the record has this for {names} already; give the others a row of their own."
            )
        self.counts.subtract(there)
        return bool(there)


def keep(book: Book, found: Told) -> dict:
    """Write what is new; everything or, when it breaks, nothing."""
    many.write(found.new, book)
    days = sorted(said.on for said, _ in found.new)
    over = sum(bool(sentences) for _, sentences in found.new)
    return {"over_limit": over} | (
        {"first": days[0].isoformat(), "last": days[-1].isoformat()} if days else {}
    )
