"""Everything of a club as plain rows, a noun at a time: what its fair copy is written from.

Rows come one by one from the database, so that twenty seasons need no more memory than one. Diary,
products and readings stand in the columns in which a book is brought in. Nobody's address is in it.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal

from django.db.models import Prefetch

from greens.models import Club, EntryGreen, EntryProduct, Establishment, StockLine
from greens.queries import diary, readings
from greens.queries import greens as places
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
from growin.agronomy.species import ESTABLISHMENTS, SPECIES
from growin.agronomy.weather_day import WEATHER
from growin.queries import decision as decisions

AT_A_TIME = 1_000
ADDRESS = re.compile(r"[^\s@:;,]+@[^\s@:;,]+")
BIG_UNITS = {"g": "kg", "ml": "l"}


@dataclass(frozen=True)
class Part:
    """One noun: its name, its headers, and its rows, read when they are asked for."""

    name: str
    headers: list[str]
    rows: Callable[[], Iterator[list]]


def parts(club: Club) -> list[Part]:
    """All of a club, in the order in which it is told."""
    return [
        Part("diary", headers(DIARY), lambda: diary_rows(club)),
        Part("readings", headers(READINGS), lambda: reading_rows(club)),
        Part("products", headers(PRODUCTS), lambda: product_rows(club)),
        Part("over limits", ["Day", "Greens", "Work", "What the limits say"], lambda: over_limits(club)),
        Part(
            "stock",
            ["Product", "What", "Day", "Amount", "Unit", "Lot", "Use by", "By"],
            lambda: stock_rows(club),
        ),
        Part("weather", weather_headers(), lambda: weather_rows(club)),
        Part(
            "greens",
            ["Green", "Number on the card", "Area, m²", "Distance to water, m"],
            lambda: green_rows(club),
        ),
        Part("rebuilds", REBUILDS, lambda: rebuild_rows(club)),
        Part("decisions", DECISIONS, lambda: decision_rows(club)),
        Part(
            "settings",
            ["Setting", "Green", "Value", "In force from", "By", "Why"],
            lambda: setting_rows(club),
        ),
        Part("changes", ["When", "By", "Deed", "Green", "From and to"], lambda: trail_rows(club)),
    ]


def written(book: str) -> list[Column]:
    return [one for one in BOOKS[book] if not one.is_in_only]


def headers(book: str) -> list[str]:
    return [one.header for one in written(book)]


def in_order(book: str) -> Callable[[dict], list]:
    """Turns values by key into a row of that book."""
    keys = [one.key for one in written(book)]
    return lambda values: list(map(values.get, keys))


# ---- diary ------------------------------------------------------------------------------------------


def entries(club: Club):
    """Entries that count, the oldest first, a thousand at a time."""
    products = EntryProduct.objects.select_related("label__product").prefetch_related("nutrients")
    lines = EntryGreen.objects.select_related("green").order_by("green__position", "green__name")
    rows = diary.of(club).select_related("done_by").order_by("on", "pk")
    whole = rows.prefetch_related(Prefetch("lines", lines), Prefetch("products", products.order_by("pk")))
    return whole.iterator(chunk_size=AT_A_TIME)


def diary_rows(club: Club) -> Iterator[list]:
    """A row for each product of an entry, or one; rows of one entry have its number."""
    row = in_order(DIARY)
    for number, entry in enumerate(entries(club), start=1):
        values = entry_values(number, entry)
        products = entry.products.all()
        for product in products:
            yield row(values | product_values(product))
        if not products:
            yield row(values)


def entry_values(number: int, entry) -> dict:
    lines = entry.lines.all()
    return {
        "entry": number,
        "on": entry.on,
        "at_time": entry.at_time and f"{entry.at_time:%H:%M}",
        "greens": "; ".join(line.green.name for line in lines),
        "areas": areas_of(lines),
        "kind": entry.work.words,
        "minutes": entry.minutes,
        "done_by": entry.done_by.name,
        "note": entry.note,
    } | {
        DETAIL + field.key: plain(field, entry.details[field.key])
        for field in entry.work.fields
        if field.key in entry.details
    }


def areas_of(lines: Iterable[EntryGreen]) -> Decimal | str | None:
    """m² of the greens as they were then: a figure for one, a list for several."""
    areas = [Decimal(line.area_dm2) / 100 for line in lines]
    if len(areas) == 1:
        return areas[0] or None
    return "; ".join(f"{area.normalize():f}" for area in areas) if any(areas) else None


def product_values(product: EntryProduct) -> dict:
    label = product.label
    return {
        "product": label.product.name,
        "label": label.revision,
        "amount": Decimal(product.amount) / 1000,
        "unit": BIG_UNITS[label.unit],
    } | {BROUGHT + nutrient.element: nutrient.mg_m2 for nutrient in product.nutrients.all()}


def plain(field: Field, value):
    """A detail as a cell: figures as figures, choices in words."""
    if field.kind == YES_NO:
        return "yes" if value else "no"
    return dict(field.choices).get(value, value) if field.kind == CHOICE else value


def over_limits(club: Club) -> Iterator[list]:
    over = diary.listed(diary.of(club).exclude(over_limit=[])).order_by("on", "pk")
    for entry in over.iterator(chunk_size=AT_A_TIME):
        for sentence in entry.over_limit:
            yield [entry.on, entry.places, entry.work.words, sentence]


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


# ---- the rest ---------------------------------------------------------------------------------------


def stock_rows(club: Club) -> Iterator[list]:
    rows = StockLine.objects.filter(product__club=club).select_related("product", "by").order_by("on", "pk")
    for line in rows.iterator():
        amount, unit = Decimal(line.amount) / 1000, BIG_UNITS[line.unit]
        what = line.get_kind_display()
        yield [line.product.name, what, line.on, amount, unit, line.lot, line.use_by, line.by.name]


def weather_headers() -> list[str]:
    return ["Day", *(field.label for field in WEATHER.values()), "Source", "Estimated"]


def weather_rows(club: Club) -> Iterator[list]:
    for day in club.weather_days.order_by("on").iterator():
        yield [
            day.on,
            *(getattr(day, key) for key in WEATHER),
            day.source,
            "yes" if day.is_estimated else "no",
        ]


def green_rows(club: Club) -> Iterator[list]:
    for green in places.of(club):
        yield [green.name, green.position, green.area_m2, green.distance_to_water_m]


REBUILDS = [
    "Green", "Rebuild", "Kind", "Grass", "Works started", "Laid or sown", "Summer height, mm",
    "Height of the other greens, mm", "Maintenance ends", "Seed, g/m²",
]  # fmt: skip
DECISIONS = [
    "Green", "Rebuild", "Play", "Decided on", "From", "Stop rule", "Meeting on", "Present", "Reason",
    "Against the verdict", "Verdict", "Digest of the evidence", "By",
]  # fmt: skip


def rebuild_rows(club: Club) -> Iterator[list]:
    rows = Establishment.objects.filter(green__club=club).select_related("green")
    for one in rows.order_by("green__position", "green__name", "number"):
        yield [
            one.green.name,
            one.number,
            ESTABLISHMENTS[one.kind].words,
            SPECIES[one.species].words,
            one.works_started_on,
            one.established_on,
            one.summer_height_mm,
            one.others_height_mm,
            one.maintenance_ends_on,
            one.seed_rate_g_m2,
        ]


def decision_rows(club: Club) -> Iterator[list]:
    for one in decisions.all_of(club).order_by("pk").iterator():
        yield [
            one.establishment.green.name,
            one.establishment.number,
            one.get_pattern_display(),
            one.made_on,
            one.from_day,
            one.stop_rule,
            one.meeting_on,
            one.present,
            one.reason,
            "yes" if one.is_against_verdict else "no",
            one.verdict,
            one.digest,
            one.by.name,
        ]


def setting_rows(club: Club) -> Iterator[list]:
    rows = club.settings.select_related("green", "by").order_by("in_force_from", "pk")
    for one in rows:
        yield [one.key, one.green and one.green.name, one.value, one.in_force_from, one.by.name, one.why]


def trail_rows(club: Club) -> Iterator[list]:
    rows = club.trail.select_related("by", "green").order_by("at", "pk")
    for line in rows.iterator(chunk_size=AT_A_TIME):
        when = f"{line.at.astimezone(club.zone):%Y-%m-%d %H:%M}"
        changes = "; ".join(f"{name}: {pair}" for name, pair in changed(line.changes))
        by, green = line.by and line.by.name, line.green and line.green.name
        yield [when, by, without_addresses(line.deed), green, without_addresses(changes)]


def changed(changes: dict) -> Iterator[tuple[str, str]]:
    for name, pair in changes.items():
        both = isinstance(pair, list) and len(pair) == 2
        yield name, f"{shown(pair[0])} → {shown(pair[1])}" if both else str(pair)


def shown(value) -> str:
    return "nothing" if value in (None, "") else str(value)


def without_addresses(text: str) -> str:
    return ADDRESS.sub("(address)", text)
