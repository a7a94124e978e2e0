"""Diary, readings and products of a club as rows, in the columns in which a book is brought in."""

from collections.abc import Callable, Iterable, Iterator
from datetime import date, time
from decimal import Decimal
from itertools import count, islice
from typing import NamedTuple

from greens.models import Club, EntryGreen, EntryNutrient, EntryProduct
from greens.queries import diary, readings
from growin.agronomy.book_columns import (
    BOOKS,
    BROUGHT,
    DETAIL,
    DIARY,
    PART,
    PRODUCTS,
    PROTOCOL,
    READINGS,
    Column,
)
from growin.agronomy.fields import CHOICE, YES_NO, Field
from growin.agronomy.measure import SHAPE_HITS, SHAPE_ROLLS, SHAPE_YES_NO
from growin.agronomy.works import WORKS

AT_A_TIME = 1_000
BIG_UNITS = {"g": "kg", "ml": "l"}


def written(book: str) -> list[Column]:
    return [one for one in BOOKS[book] if not one.is_in_only]


def headers(book: str) -> list[str]:
    return [one.header for one in written(book)]


def in_order(book: str) -> Callable[[dict], list]:
    """Turns values by key into a row of that book."""
    keys = [one.key for one in written(book)]
    return lambda values: list(map(values.get, keys))


# ---- diary ------------------------------------------------------------------------------------------


class Told(NamedTuple):
    """An entry as its own row has it."""

    pk: int
    on: date
    at_time: time | None
    kind: str
    details: dict
    minutes: int | None
    done_by: str
    note: str


def diary_rows(club: Club) -> Iterator[list]:
    """A row for each product of an entry, or one; rows of one entry have its number."""
    row, numbers = in_order(DIARY), count(1)
    for some in by_hundreds(entries(club)):
        greens, products = lines_of(some), products_of(some)
        for entry in some:
            values = entry_values(next(numbers), entry, greens.get(entry.pk, []))
            for brought in products.get(entry.pk, [{}]):
                yield row(values | brought)


def entries(club: Club) -> Iterator[Told]:
    """Entries that count, the oldest first."""
    rows = diary.of(club).order_by("on", "pk")
    names = [name if name != "done_by" else "done_by__name" for name in Told._fields]
    return map(Told._make, rows.values_list(*names).iterator(chunk_size=AT_A_TIME))


def by_hundreds(rows: Iterator[Told]) -> Iterator[list[Told]]:
    while some := list(islice(rows, AT_A_TIME)):
        yield some


def grouped(rows: Iterable[tuple]) -> dict[int, list[tuple]]:
    """Rows by their first value, without it."""
    found: dict[int, list[tuple]] = {}
    for key, *values in rows:
        found.setdefault(key, []).append(tuple(values))
    return found


def lines_of(some: list[Told]) -> dict[int, list[tuple]]:
    """Names and areas, dm², of the greens of each entry; one query."""
    rows = EntryGreen.objects.filter(entry__in=[one.pk for one in some])
    rows = rows.order_by("green__position", "green__name")
    return grouped(rows.values_list("entry_id", "green__name", "area_dm2"))


def products_of(some: list[Told]) -> dict[int, list[dict]]:
    """What each entry brought, product by product; two queries."""
    rows = EntryProduct.objects.filter(entry__in=[one.pk for one in some]).order_by("pk")
    named = ("entry_id", "pk", "label__product__name", "label__revision", "amount", "label__unit")
    products = list(rows.values_list(*named))
    nutrients = EntryNutrient.objects.filter(product__in=[pk for _, pk, *_ in products]).order_by()
    brought = grouped(nutrients.values_list("product_id", "element", "mg_m2"))
    found: dict[int, list[dict]] = {}
    for entry, pk, *product in products:
        values = product_values(*product) | {BROUGHT + one: mg for one, mg in brought.get(pk, [])}
        found.setdefault(entry, []).append(values)
    return found


def entry_values(number: int, entry: Told, lines: list[tuple]) -> dict:
    work = WORKS[entry.kind]
    return {
        "entry": number,
        "on": entry.on,
        "at_time": entry.at_time and f"{entry.at_time:%H:%M}",
        "greens": "; ".join(name for name, _ in lines),
        "areas": areas_of([Decimal(dm2) / 100 for _, dm2 in lines]),
        "kind": work.words,
        "minutes": entry.minutes,
        "done_by": entry.done_by,
        "note": entry.note,
    } | {
        DETAIL + field.key: plain(field, entry.details[field.key])
        for field in work.fields
        if field.key in entry.details
    }


def areas_of(areas: list[Decimal]) -> Decimal | str | None:
    """m² of the greens as they were then: a figure for one, a list for several."""
    if len(areas) == 1:
        return areas[0] or None
    return "; ".join(f"{area.normalize():f}" for area in areas) if any(areas) else None


def product_values(name: str, label: int, amount: int, unit: str) -> dict:
    whole = Decimal(amount) / 1000
    return {"product": name, "label": label, "amount": whole, "unit": BIG_UNITS[unit]}


def plain(field: Field, value):
    """A detail as a cell: figures as figures, choices in words."""
    if field.kind == YES_NO:
        return "yes" if value else "no"
    return dict(field.choices).get(value, value) if field.kind == CHOICE else value


# ---- readings and products --------------------------------------------------------------------------


def reading_rows(club: Club) -> Iterator[list]:
    """A row for each value; rows of one set have its number."""
    row = in_order(READINGS)
    sets = readings.of(club).order_by("on", "pk").iterator(chunk_size=AT_A_TIME)
    for number, one in enumerate(sets, start=1):
        values = set_values(number, one)
        for value in one.values:
            yield row(values | value_values(one.kind.shape, value))


def set_values(number: int, one) -> dict:
    return {
        "set": number,
        "on": one.on,
        "at_time": one.at_time and f"{one.at_time:%H:%M}",
        "green": one.green.name,
        "measure": one.kind.words,
        "unit": one.kind.unit,
        "taken_by": one.taken_by.name,
        "note": one.note,
    } | {
        PROTOCOL + field.key: plain(field, one.protocol[field.key])
        for field in one.kind.protocol
        if field.key in one.protocol
    }


def value_values(shape: str, value) -> dict:
    if shape == SHAPE_HITS:
        return {"value": value["hits"], "points": value["points"]}
    if shape == SHAPE_ROLLS:
        return {"value": rolls(value["first"]), "back": rolls(value["second"])}
    return {"value": ("yes" if value else "no") if shape == SHAPE_YES_NO else value}


def rolls(metres: list) -> str:
    return "; ".join(f"{one:g}" for one in metres)


def product_rows(club: Club) -> Iterator[list]:
    """A row for each label of each product, as printed."""
    row = in_order(PRODUCTS)
    for product in club.products.order_by("name", "pk").prefetch_related("labels__lines"):
        for label in sorted(product.labels.all(), key=lambda one: one.revision):
            yield row(label_values(product, label))


def label_values(product, label) -> dict:
    return {
        "name": product.name,
        "kind": product.get_kind_display(),
        "registration_number": product.registration_number,
        "label": label.revision,
        "from_day": label.from_day,
        "unit": BIG_UNITS[label.unit],
        "basis": label.basis,
        "density_kg_l": label.density_kg_l,
        "bulk_density_t_m3": label.bulk_density_t_m3,
        "release_weeks": label.release_weeks,
        "retired_on": product.retired_on,
    } | {PART + part: percent for part, percent in label.as_printed.items()}
