"""Heights of cut and checks of water, as the diary has them."""

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from greens.models import EntryGreen, Establishment

CUTS = ("cut", "mower_set")
CHECKS = ("irrigation_check", "drain_check")


class Logged(NamedTuple):
    """One entry of the diary on one establishment."""

    establishment_id: int
    kind: str
    on: date
    details: dict


def logged(establishments: Iterable[Establishment], kinds: Iterable[str], as_of: date) -> list[Logged]:
    """Entries of these kinds that count, up to a day, oldest first; one query."""
    rows = EntryGreen.objects.filter(
        establishment__in=establishments,
        entry__taken_back_at=None,
        entry__kind__in=kinds,
        entry__on__lte=as_of,
    ).order_by("entry__on", "entry__pk")
    columns = ("establishment_id", "entry__kind", "entry__on", "entry__details")
    return [Logged(*row) for row in rows.values_list(*columns)]
