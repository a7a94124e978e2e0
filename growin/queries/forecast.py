"""The forecasts that are kept: the newest for the pages, how it moved, and which rebuilds want a new one."""

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from datetime import date
from functools import reduce
from operator import or_

from django.db.models import Exists, OuterRef, Q, QuerySet, Subquery

from greens.models import Club, Establishment
from growin.agronomy.forecast import Forecast
from growin.agronomy.gates import Gate
from growin.agronomy.plain_words import counted
from growin.models import Decision, KeptForecast, Pattern

CHANCE_PLACES = 4
COUNTED = {"readings": "sets of readings", "cuts": "heights of cut", "weather": "days of weather"}
CHANGED = {"facts": "the record", "settings": "thresholds", "proposed": "the day in mind"}


def kept(establishment: Establishment, on: date | None = None) -> KeptForecast | None:
    """The newest of a rebuild, or the newest by a day; one query."""
    rows = establishment.forecasts.filter(as_of__lte=on) if on else establishment.forecasts
    return rows.order_by("-as_of").first()


def newest_of(establishments: Iterable[Establishment]) -> dict[int, KeptForecast]:
    """The newest of each rebuild that has one, by the rebuild's id; one query."""
    rows = KeptForecast.objects.filter(establishment__in=establishments).exclude(told={})
    return {row.establishment_id: row for row in rows.order_by("as_of")}


def newest(establishment: Establishment) -> Forecast | None:
    """The newest forecast of a rebuild, if one could be worked out."""
    row = kept(establishment)
    return as_forecast(row) if row else None


def as_plain(forecast: Forecast) -> dict:
    """The whole of a forecast as JSON keeps it; its day and three dates stand in columns of their own."""
    return {
        "starts_on": forecast.starts_on.isoformat(),
        "season_ends_on": forecast.season_ends_on.isoformat(),
        "holding_back": dict(forecast.holding_back),
        "chances": [round(one, CHANCE_PLACES) for one in forecast.chances],
        "gate": asdict(forecast.gate) | {"day": forecast.gate.day.isoformat()},
        "histories": forecast.histories,
        "weather_years": forecast.weather_years,
    }


def as_forecast(row: KeptForecast) -> Forecast | None:
    """The forecast that a row keeps; None where it was refused or only its dates are kept."""
    told = row.told
    if not told:
        return None
    day = date.fromisoformat
    return Forecast(
        row.as_of,
        day(told["starts_on"]),
        row.p10,
        row.p50,
        row.p90,
        within_season=row.within_season,
        season_ends_on=day(told["season_ends_on"]),
        ready_by={},
        holding_back=told["holding_back"],
        chances=tuple(told["chances"]),
        gate=Gate(day(told["gate"]["day"]), told["gate"]["words"]),
        histories=told["histories"],
        weather_years=told["weather_years"],
    )


@dataclass(frozen=True)
class Move:
    """A forecast of a day beside the one before it: days later (negative: earlier) and what came in."""

    row: KeptForecast
    days: int | None
    because: str

    @property
    def words(self) -> str:
        """ "6 days earlier"; a green that was ready moves no more; empty where nothing can be compared."""
        if self.row.p50 and self.row.p50 <= self.row.as_of:
            return "ready that day"
        if not self.days:
            return "" if self.days is None else "not at all"
        return f"{counted(abs(self.days), 'days')} {'later' if self.days > 0 else 'earlier'}"


def moves(establishment: Establishment, most: int = 12) -> list[Move]:
    """How the forecast of a rebuild has moved, the newest first; one query."""
    rows = list(establishment.forecasts.filter(refused="").order_by("-as_of").defer("told")[: most + 1])
    pairs = zip(rows, [*rows[1:], None], strict=False)
    return [Move(row, days_between(before, row), news(before, row)) for row, before in pairs][:most]


def days_between(before: KeptForecast | None, after: KeptForecast) -> int | None:
    """By how many days the likely day moved; None where one of the two has none."""
    return (after.p50 - before.p50).days if before and before.p50 and after.p50 else None


def news(before: KeptForecast | None, after: KeptForecast) -> str:
    """What one forecast knew that the one before did not: "2 sets of readings, 7 days of weather"."""
    if before is None:
        return "the first forecast"
    old, new = before.knew, after.knew
    more = {plural: new.get(key, 0) - old.get(key, 0) for key, plural in COUNTED.items()}
    said = [counted(number, plural) for plural, number in more.items() if number > 0]
    said += [words for key, words in CHANGED.items() if new.get(key) != old.get(key)]
    return ", ".join(said) or "days gone by"


def wanting(most: int | None = None) -> QuerySet[Establishment]:
    """Rebuilds of every club between laying and opening whose forecast is missing, stale or of yesterday.

    For the sweep alone. A forecast that knows all lines of the trail and is of the club's today is fresh.
    """
    newest = Establishment.objects.filter(green=OuterRef("green")).order_by("-number").values("pk")[:1]
    laid = Establishment.objects.filter(established_on__isnull=False, pk=Subquery(newest))
    zones = Club.objects.order_by().values_list("time_zone", flat=True).distinct()
    stale = reduce(or_, map(_stale_in, zones), Q(pk__in=[]))
    return laid.filter(stale).select_related("green__club").order_by("pk")[:most]


def _stale_in(zone: str) -> Q:
    """Rebuilds in one time zone, not in play on its today, without a fresh forecast of that day."""
    today = Club(time_zone=zone).local_today()
    fresh = KeptForecast.objects.filter(
        establishment=OuterRef("pk"), mark=OuterRef("green__club__trail_mark"), as_of__gte=today
    )
    of_it = OuterRef(OuterRef("pk"))
    decided = Decision.objects.filter(establishment=of_it, from_day__lte=today).order_by("-pk").values("pk")
    in_play = Exists(Decision.objects.filter(pk=Subquery(decided[:1])).exclude(pattern=Pattern.CLOSED))
    return Q(green__club__time_zone=zone) & ~Exists(fresh) & ~in_play


def is_stale(row: KeptForecast, club: Club) -> bool:
    """Whether something came into the record since, or its day has gone by."""
    return row.mark != club.trail_mark or row.as_of < club.local_today()
