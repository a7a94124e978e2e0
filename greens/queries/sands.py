"""What sand was put on greens, dressing by dressing."""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from django.db.models import Sum

from greens.choices import ProductKind
from greens.models import EntryGreen, EntryProduct, Green


class Used(NamedTuple):
    """Sand of one entry over all its greens: g, and t/m³ by its label where that says it."""

    on: date
    entry_id: int
    grams: int
    bulk_density_t_m3: Decimal | None


def per_m2(green: Green, first: date, last: date) -> list[tuple[date, float]]:
    """Day and kg/m² of each dressing of a green in a span of days, oldest first; two queries."""
    rows = used([green], first, last)
    lines = EntryGreen.objects.filter(entry__in={one.entry_id for one in rows}).order_by()
    areas = dict(lines.values_list("entry").annotate(total=Sum("area_dm2")))
    return [(one.on, one.grams / areas[one.entry_id] / 10) for one in rows if areas.get(one.entry_id)]


def used(greens: Iterable[Green], first: date, last: date) -> list[Used]:
    """Sand of a span of days on any of these greens, both days included, oldest first; one query."""
    rows = EntryProduct.objects.filter(
        label__product__kind=ProductKind.SAND,
        entry__lines__green__in=list(greens),
        entry__taken_back_at=None,
        entry__on__range=(first, last),
    )
    columns = ("pk", "entry__on", "entry", "amount", "label__bulk_density_t_m3")
    said = rows.distinct().order_by("entry__on", "pk").values_list(*columns)
    return [Used(*one[1:]) for one in said]
