"""Seasons of a green, from midwinter to midwinter."""

from datetime import date, timedelta

from greens.models import Club, Green
from greens.queries import diary, readings
from growin.agronomy.season import year_start


def seasons_of(green: Green, on: date) -> list[tuple[date, date]]:
    """First and last day of each season since anything was written, the newest first; two queries."""
    first = year_start(on, float(green.club.latitude_deg))
    written = min(day for day in (diary.first_day(green), readings.first_day(green), on) if day)
    begun = year_start(written, float(green.club.latitude_deg))
    return [span(first, back) for back in range(first.year - begun.year + 1)]


def last_day(club: Club, today: date, year: int | None) -> date:
    """Of the season that began in a year: today while it lasts, and where none is asked for."""
    first = year_start(today, float(club.latitude_deg))
    back = first.year - year if year else 0
    return span(first, back)[1] if 0 < back < first.year else today


def span(first: date, back: int) -> tuple[date, date]:
    start = first.replace(year=first.year - back)
    return start, start.replace(year=start.year + 1) - timedelta(days=1)
