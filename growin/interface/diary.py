"""The diary and the sets of readings as programs read them."""

from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Annotated, Any

from greens import models as kept
from greens.queries import diary, readings
from growin.agronomy.measures import MEASURES
from growin.agronomy.works import WORKS
from growin.interface.schema import OneOf
from growin.queries.listed import Piece, by_day


@dataclass(frozen=True)
class GreenWorked:
    """A green of an entry, with its area as it was that day."""

    green_id: int
    rebuild_id: int | None
    area_m2: Annotated[float | None, "null where it was not known."]


@dataclass(frozen=True)
class ProductUsed:
    """A product of an entry: the amount over all its greens, in g or in ml."""

    product_id: int
    name: str
    amount_g: int | None
    amount_ml: int | None


@dataclass(frozen=True)
class Entry:
    """A piece of work as it reads now. Entries that were taken back are left out."""

    id: int
    on: date
    at_time: Annotated[str | None, "By the club's clock, such as 06:30."]
    kind: Annotated[str, OneOf(tuple(WORKS))]
    greens: list[GreenWorked]
    details: Annotated[dict[str, Any], "What the kind of work asks, the unit in each name: height_mm."]
    products: list[ProductUsed]
    nutrients_g_m2: Annotated[dict[str, float], "Elemental, on each m², by sign: N, P, K …"]
    minutes: Annotated[int | None, "Labour."]
    note: str
    over_limit: Annotated[list[str], "Limits that it went over, as sentences."]
    done_by: str
    logged_at: datetime
    revision: Annotated[int, "Counts up with every correction."]


@dataclass(frozen=True)
class Readings:
    """A set of readings of one measure, value by value. Sets that were taken back are left out."""

    id: int
    green_id: int
    rebuild_id: int | None
    measure: Annotated[str, OneOf(tuple(MEASURES))]
    unit: Annotated[str, "Of the values; empty where they are yes or no, or counts."]
    on: date
    at_time: Annotated[str | None, "By the club's clock, such as 06:30."]
    values: Annotated[
        list[Any],
        "Numbers, true or false, {hits, points}, or {first, second} with metres rolled one way and back.",
    ]
    protocol: Annotated[dict[str, Any], "How it was taken, the unit in each name."]
    note: str
    taken_by: str
    logged_at: datetime
    revision: Annotated[int, "Counts up with every correction."]


def clock(at: time | None) -> str | None:
    return at and f"{at:%H:%M}"


def entries_of(
    club: kept.Club, since=None, until=None, green=None, kind=None, cursor=None, limit=None
) -> Piece:
    rows = diary.sought(diary.of(club), first=since, last=until, green=green, kind=kind or "")
    piece = by_day(diary.listed(rows), cursor, limit)
    return Piece([entry(row) for row in piece.rows], piece.next)


def entry(row: kept.Entry) -> Entry:
    return Entry(
        id=row.pk,
        on=row.on,
        at_time=clock(row.at_time),
        kind=row.kind,
        greens=[worked(line) for line in row.lines.all()],
        details=row.details,
        products=[used(line) for line in row.products.all()],
        nutrients_g_m2={one.element: one.mg_m2 / 1000 for one in row.nutrients},
        minutes=row.minutes,
        note=row.note,
        over_limit=row.over_limit,
        done_by=row.done_by.name,
        logged_at=row.logged_at,
        revision=row.revision,
    )


def worked(line: kept.EntryGreen) -> GreenWorked:
    return GreenWorked(line.green_id, line.establishment_id, line.area_dm2 / 100 if line.area_dm2 else None)


def used(line: kept.EntryProduct) -> ProductUsed:
    grams, ml = (None, line.amount) if line.label.is_liquid else (line.amount, None)
    return ProductUsed(line.label.product_id, line.label.product.name, grams, ml)


def readings_of(
    club: kept.Club, since=None, until=None, green=None, measure=None, cursor=None, limit=None
) -> Piece:
    rows = readings.sought(readings.of(club), first=since, last=until, green=green, measure=measure)
    piece = by_day(rows, cursor, limit)
    return Piece([reading(row) for row in piece.rows], piece.next)


def reading(row: kept.ReadingSet) -> Readings:
    return Readings(
        id=row.pk,
        green_id=row.green_id,
        rebuild_id=row.establishment_id,
        measure=row.measure,
        unit=row.kind.unit,
        on=row.on,
        at_time=clock(row.at_time),
        values=row.values,
        protocol=row.protocol,
        note=row.note,
        taken_by=row.taken_by.name,
        logged_at=row.logged_at,
        revision=row.revision,
    )
