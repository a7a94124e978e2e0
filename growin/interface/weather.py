"""The weather of a club as programs read it."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from greens import models as kept
from greens.queries import weather
from growin.interface.place import number
from growin.queries.listed import Piece, by_day


@dataclass(frozen=True)
class WeatherDay:
    """One local day; what was not measured is null."""

    on: date
    min_c: float | None
    max_c: float | None
    mean_c: float | None
    rain_mm: float | None
    soil_100_c: Annotated[float | None, "Soil at 100 mm, 9 am."]
    humidity_percent: int | None
    wind_m_s: float | None
    sunshine_h: float | None
    is_estimated: Annotated[bool, "An estimated day never passes as a measured one."]
    source: str


MEASURED = ("min_c", "max_c", "mean_c", "rain_mm", "soil_100_c", "wind_m_s", "sunshine_h")


def days_of(club: kept.Club, since=None, until=None, cursor=None, limit=None) -> Piece:
    piece = by_day(weather.days(club, since or date.min, until or date.max), cursor, limit)
    return Piece([day(row) for row in piece.rows], piece.next)


def day(row: kept.WeatherDay) -> WeatherDay:
    return WeatherDay(
        on=row.on,
        humidity_percent=row.humidity_percent,
        is_estimated=row.is_estimated,
        source=row.source,
        **{name: number(getattr(row, name)) for name in MEASURED},
    )
