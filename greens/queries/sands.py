"""What sand was put on greens, dressing by dressing."""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from django.db.models import OuterRef, Subquery, Sum

from greens.choices import ProductKind
from greens.models import EntryGreen, EntryProduct, Green


class Dressing(NamedTuple):
    """Sand of one product in one entry, as it lay on one green; t/m³ by its label where that says it."""

    on: date
    entry_id: int
    kind: str
    kg_m2: float
    area_m2: float
    bulk_density_t_m3: Decimal | None


def dressings(
    greens: Iterable[Green],
    first: date = date.min,
    last: date = date.max,
    but_entry: int | None = None,
) -> dict[int, list[Dressing]]:
    """Those of each green in a span of days, both included, oldest first, by its id; one query.

    The amount of an entry lies over the area of all its greens as it was then; without one it counts nothing.
    """
    places = list(greens)
    whole = EntryGreen.objects.filter(entry=OuterRef("entry")).order_by().values("entry")
    rows = (
        EntryProduct.objects.filter(
            label__product__kind=ProductKind.SAND,
            entry__club__in={green.club_id for green in places},  # so that its days are looked up first
            entry__lines__green__in={green.pk for green in places},
            entry__taken_back_at=None,
            entry__on__range=(first, last),
        )
        .exclude(entry=but_entry)
        .annotate(whole_dm2=Subquery(whole.values(whole=Sum("area_dm2"))))
        .filter(whole_dm2__gt=0)
        .order_by("entry__on", "pk")
    )
    found: dict[int, list[Dressing]] = {}
    columns = (
        "entry__lines__green", "entry__on", "entry", "entry__kind",
        "amount", "whole_dm2", "entry__lines__area_dm2", "label__bulk_density_t_m3",
    )  # fmt: skip
    for green, on, entry, kind, grams, whole_dm2, dm2, density in rows.values_list(*columns):
        one = Dressing(on, entry, kind, grams / whole_dm2 / 10, dm2 / 100, density)
        found.setdefault(green, []).append(one)
    return found


def kg_m2(greens: Iterable[Green], first: date, last: date, but_entry: int | None = None) -> dict[int, float]:
    """The sum of a span of days, both included, by the green's id; one query."""
    found = dressings(greens, first, last, but_entry)
    return {pk: sum(one.kg_m2 for one in rows) for pk, rows in found.items()}
