"""Constants of the trade as they are in force for a club or a green on a day."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from types import MappingProxyType

from django.db.models import Q, QuerySet

from greens.models import Club, Green, Setting
from growin.agronomy.defaults import Default
from growin.agronomy.settings_table import DEFAULTS, default_values

NONE_FROZEN = MappingProxyType({})


def rows(club: Club, green: Green | None = None) -> QuerySet[Setting]:
    """The club's own rows, and the green's when one is given, oldest first."""
    scope = Q(green=None) | Q(green=green) if green else Q(green=None)
    return club.settings.filter(scope).select_related("by", "green")


def merged(overrides: Iterable[Setting]) -> dict[str, float]:
    """Defaults under the club's own values; a green's value wins over the club's."""
    values = default_values()
    for row in sorted(overrides, key=lambda row: (row.green_id is not None, row.in_force_from, row.pk)):
        values[row.key] = row.value
    return values


def in_force(club: Club, on: date, green: Green | None = None) -> dict[str, float]:
    """Every constant by key as it counts on that day. One query."""
    return merged(rows(club, green).filter(in_force_from__lte=on).select_related(None))


@dataclass(frozen=True)
class Frozen:
    """A moment up to which a green's constants count: rows of a later day or written later do not."""

    on: date
    at: datetime

    def holds(self, row: Setting) -> bool:
        return row.in_force_from <= self.on and row.made_at <= self.at


def in_force_by_green(
    club: Club, on: date, green_ids: Iterable[int], frozen: Mapping[int, Frozen] = NONE_FROZEN
) -> dict[int, dict[str, float]]:
    """Every constant for each of these greens as it counts on that day, or stands frozen. One query."""
    overrides = list(club.settings.filter(in_force_from__lte=on))
    return {pk: merged(_counting(overrides, pk, frozen.get(pk))) for pk in green_ids}


def _counting(overrides: Iterable[Setting], green_id: int, frozen: Frozen | None) -> list[Setting]:
    own = [row for row in overrides if row.green_id in (None, green_id)]
    return own if frozen is None else [row for row in own if frozen.holds(row)]


def default(club: Club, key: str) -> Default:
    """The constant of an address; raises Setting.DoesNotExist when there is none of that name."""
    if key not in DEFAULTS:
        raise Setting.DoesNotExist(key)
    return DEFAULTS[key]


def of_key(club: Club, key: str) -> QuerySet[Setting]:
    """The club's own values of one constant, newest first."""
    return club.settings.filter(key=key).select_related("by", "green").order_by("-in_force_from", "-pk")


def greens_of_their_own(club: Club, key: str, on: date) -> set[int]:
    """The greens for which the club set a value of their own that counts on a day."""
    own = club.settings.filter(key=key, green__isnull=False, in_force_from__lte=on)
    return set(own.values_list("green_id", flat=True))


def of_club(club: Club) -> QuerySet[Setting]:
    """Every row of the club and its greens, oldest first."""
    return club.settings.select_related("by", "green")
