"""What sand was put on greens, dressing by dressing."""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from django.db.models import OuterRef, Subquery, Sum

from greens.choices import ProductKind
from greens.models import EntryGreen, EntryProduct, Green
from greens.queries.spans import ALWAYS, Span, within
from growin.agronomy.works import WITH_PRODUCT


class Dressing(NamedTuple):
    """Sand of one product in one entry, as it lay on one green; t/m³ by its label where that says it."""

    on: date
    entry_id: int
    kind: str
    kg_m2: float
    area_m2: float
    bulk_density_t_m3: Decimal | None


def dressings(
    greens: Iterable[Green], *spans: Span, but_entry: int | None = None
) -> dict[int, list[Dressing]]:
    """Those of each green in some spans of days, or ever, oldest first, by its id; one query.

    The amount of an entry lies over the area of all its greens as it was then; without one it counts nothing.
    """
    places = list(greens)
    whole = EntryGreen.objects.filter(entry=OuterRef("entry")).order_by().values("entry")
    rows = (
        EntryProduct.objects.filter(
            within("entry__lines__on", list(spans) or [ALWAYS]),
            label__product__kind=ProductKind.SAND,
            entry__lines__green__in={green.pk for green in places},
            entry__lines__kind__in=WITH_PRODUCT,
            entry__taken_back_at=None,
        )
        .exclude(entry=but_entry)
        .annotate(whole_dm2=Subquery(whole.values(whole=Sum("area_dm2"))))
        .filter(whole_dm2__gt=0)
        .order_by("entry__lines__on", "pk")
    )
    found: dict[int, list[Dressing]] = {}
    columns = (
        "entry__lines__green", "entry__lines__on", "entry", "entry__lines__kind",
        "amount", "whole_dm2", "entry__lines__area_dm2", "label__bulk_density_t_m3",
    )  # fmt: skip
    for green, on, entry, kind, grams, whole_dm2, dm2, density in rows.values_list(*columns):
        one = Dressing(on, entry, kind, grams / whole_dm2 / 10, dm2 / 100, density)
        found.setdefault(green, []).append(one)
    return found


def kg_m2(greens: Iterable[Green], first: date, last: date, but_entry: int | None = None) -> dict[int, float]:
    """The sum of a span of days, both included, by the green's id; one query."""
    found = dressings(greens, (first, last), but_entry=but_entry)
    return {pk: sum(one.kg_m2 for one in rows) for pk, rows in found.items()}
