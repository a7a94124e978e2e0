"""A club's own list of products: each row a product, or a further label of one."""

import re
from collections.abc import Callable, Iterator
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from greens.actions.book_rows import SAID_SO, Cells, Told, Wrong, is_left_out, wrongs_in
from greens.actions.store import check_label
from greens.choices import LabelBasis
from greens.models import Book, Label, LabelLine, Product
from greens.queries import store
from greens.queries.book_words import Words
from greens.validators.book_file import BookTable
from growin.agronomy.book_cells import in_unit, plain_unit
from growin.agronomy.book_columns import PART
from growin.agronomy.book_words import plain_word
from growin.agronomy.fields import DetailError
from growin.agronomy.impossible import ImpossibleValue

COUNTED = {"kg": "g", "g": "g", "t": "g", "l": "ml", "ml": "ml", "gal": "ml", "lb": "g"}
#: What the label's figures may be, and their decimals; as the form of the store has it.
RANGES = {"density_kg_l": (Decimal("0.7"), 3, 3), "bulk_density_t_m3": (Decimal("0.5"), Decimal("2.65"), 2)}
RANGES |= {"release_weeks": (1, 104, 0)}
ANALYSIS = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*[-:+/]\s*(\d+(?:[.,]\d+)?)\s*[-:+/]\s*(\d+(?:[.,]\d+)?)\b.*")
MAIN = ("N_total", "P2O5", "K2O")
UNITS = {"density_kg_l": "kg/l", "bulk_density_t_m3": "", "release_weeks": ""}
LONGEST_NAME = 80


class ProductRow(NamedTuple):
    """One row of a list: a product with one label of it."""

    number: int
    name: str
    kind: str
    registration_number: str
    revision: int | None
    from_day: date
    unit: str | None
    basis: str
    density_kg_l: Decimal | None
    bulk_density_t_m3: Decimal | None
    release_weeks: int | None
    retired_on: date | None
    analysis: dict
    parts: dict


class ProductReader:
    """Rows of one list."""

    def __init__(self, book: Book, table: BookTable):
        self.book = book
        self.cells = Cells(book, table, Words(book))
        self.parts = [key for key in self.cells.places if key.startswith(PART)]

    def rows(self) -> Iterator[ProductRow]:
        cells = self.cells
        return map(
            ProductRow._make,
            zip(
                cells.numbers,
                cells.column("name", a_name, Wrong("", "Product: its name is missing.")),
                cells.meanings("kind", empty=Wrong("", "Kind: what kind of product it is is missing.")),
                cells.column("registration_number", lambda text: text[:40], ""),
                cells.figures("label", whole=True),
                cells.days("from_day", self.book.club.local_today()),
                cells.column("unit", counted_in),
                cells.column("basis", a_basis, LabelBasis.BY_WEIGHT),
                *(cells.column(key, self.in_range(key)) for key in RANGES),
                cells.days("retired_on"),
                cells.column("analysis", an_analysis, {}),
                self.all_parts(),
                strict=False,
            ),
        )

    def in_range(self, key: str) -> Callable[[str], Decimal | int]:
        low, high, places = RANGES[key]

        def read(text: str):
            figure = round(in_unit(text, UNITS[key], UNITS[key], self.cells.comma), places)
            if not low <= figure <= high:
                raise ImpossibleValue(key, f"“{text[:40]}”", f"from {low} to {high}")
            return figure if places else int(figure)

        return read

    def all_parts(self) -> Iterator[dict]:
        """Per cent by part of the label, row by row; one of them may be a Wrong."""
        columns = [(key.removeprefix(PART), self.cells.column(key, self.percent)) for key in self.parts]
        for _ in self.cells.rows:
            read = [(part, next(column)) for part, column in columns]
            yield {part: percent for part, percent in read if percent is not None}

    def percent(self, text: str) -> Decimal:
        return round(in_unit(text, "%", comma=self.cells.comma), 3)


def a_name(text: str) -> str:
    if len(text) > LONGEST_NAME:
        raise ImpossibleValue("Product", f"a name of {len(text)} letters", f"at most {LONGEST_NAME}")
    return " ".join(text.split())


def counted_in(text: str) -> str:
    unit = COUNTED.get(plain_unit(text))
    if unit is None:
        raise ImpossibleValue("Counted in", f"“{text[:40]}”", "kg or litres")
    return unit


def a_basis(text: str) -> str:
    for basis in LabelBasis:
        if plain_word(text) in (basis.value, basis.label.lower()):
            return basis
    raise ImpossibleValue("Per cent are", f"“{text[:40]}”", "w/w or w/v")


def an_analysis(text: str) -> dict[str, Decimal]:
    """ "12-5-9" as total nitrogen, phosphate and potash of the label."""
    found = ANALYSIS.fullmatch(text)
    if not found:
        raise ImpossibleValue("Analysis", f"“{text[:40]}”", "three figures such as 12-5-9")
    return {
        part: Decimal(figure.replace(",", ".")) for part, figure in zip(MAIN, found.groups(), strict=True)
    }


# ---- judging ----------------------------------------------------------------------------------------


def told(book: Book, table: BookTable, say: Callable[[int, int], None] = lambda done, of: None) -> Told:
    """What a list says, judged as the store judges a product and its labels."""
    reader, found = ProductReader(book, table), Told()
    there = {plain_word(one.name): one for one in store.products(book.club)}
    new: dict[str, list[tuple[ProductRow, Label, dict]]] = {}
    for row in reader.rows():
        tell(row, there, new, found)
    found.new, found.passed = list(new.values()), [*found.passed, *reader.cells.passed]
    say(len(reader.cells.rows), len(reader.cells.rows))
    return found


def tell(row: ProductRow, there: dict[str, Product], new: dict, found: Told) -> None:
    wrongs = [*wrongs_in(row), *wrongs_in(tuple(row.parts.values()))]
    if is_left_out(row):
        found.passed.append((row.number, SAID_SO))
        return
    judged = wrongs or as_label(row)
    if isinstance(judged, list):
        found.fault(row.number, judged)
    elif plain_word(row.name) in there:
        meet(row, judged, there[plain_word(row.name)], found)
    else:
        add(row, judged, new.setdefault(plain_word(row.name), []), found)


def as_label(row: ProductRow) -> tuple[Label, dict] | list[Wrong]:
    """The label of a row with its parts, or what is wrong with them together."""
    lines = row.analysis | row.parts
    label = Label(
        unit=row.unit or store.usual_unit(row.kind),
        basis=row.basis,
        from_day=row.from_day,
        **{key: getattr(row, key) for key in RANGES},
    )
    try:
        check_label(lines, label)
    except DetailError as refused:
        return [Wrong(row.name, sentence) for sentence in refused.errors.values()]
    return label, lines


def meet(row: ProductRow, judged: tuple[Label, dict], product: Product, found: Told) -> None:
    """A product that the store has: the same label is there already, another one is for the store's page."""
    label, lines = judged
    if any(one.as_printed == lines and one.unit == label.unit for one in product.labels.all()):
        found.there += 1
        return
    sentence = f"Product: the store has {product} with another label; give it a new label there."
    found.fault(row.number, [Wrong(row.name, sentence)])


def add(row: ProductRow, judged: tuple[Label, dict], rows: list, found: Told) -> None:
    """A first or a further label of a product of this list; the same row again is passed over."""
    label, lines = judged
    label.revision = row.revision or len(rows) + 1
    if any(one.revision == label.revision for _, one, _ in rows):
        found.fault(row.number, [Wrong(row.name, f"Label: {row.name} has two labels {label.revision} here.")])
    elif any(lines == others and row[2:] == other[2:] for other, _, others in rows):
        found.there += 1
    else:
        rows.append((row, label, lines))


def keep(book: Book, found: Told) -> dict:
    """Write what is new; the caller's transaction holds it together."""
    products = Product.objects.bulk_create([product_of(book, rows[0][0]) for rows in found.new])
    labels = [
        (product, label, lines)
        for product, rows in zip(products, found.new, strict=True)
        for _, label, lines in rows
    ]
    for product, label, _ in labels:
        label.product, label.by = product, book.logged_by
    Label.objects.bulk_create([label for _, label, _ in labels])
    LabelLine.objects.bulk_create(
        LabelLine(label=label, part=part, percent=percent)
        for _, label, lines in labels
        for part, percent in lines.items()
    )
    return {"labels": len(labels)}


def product_of(book: Book, row: ProductRow) -> Product:
    return Product(
        club=book.club,
        book=book,
        kind=row.kind,
        name=row.name,
        registration_number=row.registration_number,
        retired_on=row.retired_on,
    )
