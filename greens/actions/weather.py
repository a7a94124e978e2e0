"""Writing down the weather of a day."""

from datetime import date

from django.db import transaction

from greens.actions import trail
from greens.models import Club, Membership, WeatherDay
from growin.agronomy.fields import DetailError
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.plain_words import dated
from growin.agronomy.weather_day import WEATHER, clean_weather
from growin.agronomy.works import check_day

FIRST_DAY = date(1950, 1, 1)


@transaction.atomic
def record_day(
    *,
    club: Club,
    by: Membership,
    on: date,
    source: str = "by hand",
    is_estimated: bool = False,
    **values,
) -> WeatherDay:
    """Keep the figures of one day; what was kept of it before is replaced, and the change recorded.

    Raises
    ------
    DetailError
        With one sentence for every figure that cannot be, or for the day.
    """
    _check(club, on)
    cleaned = clean_weather(values)
    row = WeatherDay.objects.select_for_update().filter(club=club, on=on).first()
    row = row or WeatherDay(club=club, on=on)
    kept = {name: cleaned.get(name) for name in WEATHER} | {"source": source, "is_estimated": is_estimated}
    changes = _set(row, kept)
    if changes:
        row.upload = None
        row.save()
        trail.write(club=club, by=by, deed=f"Weather of {dated(on)}", row=row, changes=changes)
    return row


def _check(club: Club, on: date) -> None:
    try:
        check_day("weather", on, today=club.local_today())
        if on < FIRST_DAY:
            raise ImpossibleValue("day of “weather”", dated(on), f"{dated(FIRST_DAY)} or later")
    except ImpossibleValue as refused:
        raise DetailError({"on": str(refused)}) from None


def _set(row: WeatherDay, kept: dict) -> dict:
    """Set what differs on the row, and return it as {field: [from, to]}."""
    before = {name: trail.plain(getattr(row, name)) for name in kept}
    changes = {name: [before[name], new] for name, new in kept.items() if before[name] != new or not row.pk}
    for name, new in kept.items():
        setattr(row, name, new)
    return {name: pair for name, pair in changes.items() if pair != [None, None]}
