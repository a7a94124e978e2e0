"""Programmes that the weather has left behind: a new drawing would move steps by more than a week."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from django.core.cache import cache
from django.db.models import OuterRef, Subquery

from greens.models import Club, Establishment
from greens.queries import weather
from growin.agronomy.programme.shift import furthest, warmth
from growin.models import Programme
from growin.queries import drawn
from growin.queries.redraw import days_words

#: Our judgement: a week is worth a look; weather of less than two days moves no step so far.
WORTH_A_LOOK_DAYS, LEAST_WEATHER_DAYS = 7, 2
DAY_S = 86_400


@dataclass(frozen=True)
class Lag:
    """A programme in force, and the most days by which the weather since would move a step to come."""

    establishment: Establishment
    days: int

    @property
    def words(self) -> str:
        """ "up to 9 days earlier"."""
        return f"up to {days_words(self.days)}"


def lags(club: Club, establishments: Iterable[Establishment], on: date) -> list[Lag]:
    """Of these rebuilds of a club those worth a look; two queries, drawn anew only after new weather."""
    rebuilds = {one.pk: one for one in establishments}
    chain = Programme.objects.filter(establishment=OuterRef("establishment")).order_by("-number")
    newest = Programme.objects.filter(establishment__in=rebuilds, pk=Subquery(chain.values("pk")[:1]))
    versions = list(newest)
    if not versions:
        return []
    means = weather.means(club, min(one.works_started_on for one in rebuilds.values()), on)
    found = (Lag(rebuilds[one.establishment_id], _days_once(one, rebuilds, means, on)) for one in versions)
    return [one for one in found if abs(one.days) > WORTH_A_LOOK_DAYS]


def _days_once(version: Programme, rebuilds: dict, means: dict[date, float], on: date) -> int:
    began = rebuilds[version.establishment_id].works_started_on
    since = {day: mean for day, mean in means.items() if day >= began}
    seen = f"{on}:{len(since)}:{sum(since.values()):.1f}:{max(since, default=on)}"
    key = f"lag:{version.pk}:{version.issued_at.timestamp()}:{seen}"
    return cache.get_or_set(key, lambda: _days(version, since, on), DAY_S)


def _days(version: Programme, means: dict[date, float], on: date) -> int:
    old = drawn.as_it_was(version)
    if old is None:
        return 0
    new = replace(old, climate=replace(old.climate, daily=means))
    odd = abs(warmth(old, new, on).days) >= LEAST_WEATHER_DAYS
    return furthest(old, new, on) if odd else 0
