"""Heights of cut and checks of water, as the diary has them."""

from collections.abc import Iterable
from datetime import date
from operator import itemgetter
from typing import NamedTuple

from greens.models import EntryGreen, Establishment

HEIGHTS = ("cut", "mower_set")
CHECKS = ("irrigation_check", "drain_check")


class Logged(NamedTuple):
    """One entry of the diary on one establishment."""

    establishment_id: int
    kind: str
    on: date
    details: dict


def logged(establishments: Iterable[Establishment], as_of: date, since: date | None = None) -> list[Logged]:
    """Cuts, settings of the mower and checks that count, up to a day, oldest first; one query.

    Heights of cut only ``since`` that day; the few checks whatever their age.
    """
    lines = EntryGreen.objects.filter(establishment__in=establishments).order_by()
    counting = {"entry__taken_back_at": None, "on__lte": as_of}
    heights = lines.filter(**counting, kind__in=HEIGHTS, on__gte=since or date.min)
    checks = lines.filter(**counting, kind__in=CHECKS)
    columns = ("establishment_id", "kind", "on", "entry__details", "entry_id")
    rows = heights.values_list(*columns).union(checks.values_list(*columns), all=True)
    return [Logged(*row[:-1]) for row in sorted(rows, key=itemgetter(2, 4))]
