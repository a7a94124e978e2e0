"""Frost, heat and long wet, from the days on record."""

from datetime import timedelta

from greens.actions.notice import Telling
from greens.choices import NoticeKind
from greens.queries import weather
from growin.agronomy.weather_flags import DayOnRecord, flags
from growin.evidence.occasions.look import Look

LOOKS_BACK = timedelta(days=60)


def tellings(look: Look) -> list[Telling]:
    """One for each run of such days, told once; what holds is told by its first day."""
    days = weather.days(look.club, look.on - LOOKS_BACK, look.on).filter(is_estimated=False)
    measured = [
        DayOnRecord(on, *(None if one is None else float(one) for one in said))
        for on, *said in days.values_list("on", "min_c", "max_c", "rain_mm")
    ]
    raised = flags(measured, look.on, look.settings["caution.frost_c"], look.settings)
    return [
        Telling(
            kind=NoticeKind.WEATHER,
            key=f"weather {one.kind} {one.since}",
            subject=one.words,
            text=one.text,
            place=look.page("weather"),
        )
        for one in raised
    ]
