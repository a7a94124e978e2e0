"""What one day asked for, from what was written down: Penman-Monteith where the data allow, else Hargreaves.

A day is a mapping of the keys of :data:`growin.agronomy.weather_day.WEATHER`; what is missing or
None was not read.
"""

from collections.abc import Mapping
from datetime import date
from functools import lru_cache
from typing import NamedTuple

from growin.agronomy.evapotranspiration import (
    crop_evapotranspiration,
    hargreaves_evapotranspiration,
    reference_evapotranspiration,
    vapour_of_mean_humidity,
)
from growin.agronomy.radiation import BENDING_H, daylight_hours

PENMAN_MONTEITH, HARGREAVES = "Penman–Monteith", "Hargreaves"
NEEDED, FOR_PENMAN_MONTEITH = ("min_c", "max_c"), ("humidity_percent", "wind_m_s")
READ = (*NEEDED, *FOR_PENMAN_MONTEITH, "sunshine_h")
OF_THE_PLACE = ("sun.albedo", "sun.krs_inland", "sun.krs_coast", "sun.coast", "water.wind_height_m")

Day = Mapping[str, float | None]
Settings = Mapping[str, float]


class Place(NamedTuple):
    """Where the weather was: degrees, the south negative, and m above the sea."""

    latitude_deg: float
    altitude_m: float


class Asked(NamedTuple):
    """Reference evapotranspiration of a day, mm, and the method that gave it."""

    et0_mm: float
    method: str


def reference_of_day(day: Day, on: date, place: Place, settings: Settings) -> Asked | None:
    """Reference evapotranspiration of one day; None without its lowest and highest temperature.

    Penman-Monteith needs mean humidity and wind; sunshine where it was read, else the radiation
    that the range of temperature tells. Otherwise Hargreaves. Never below zero.

    Settings: :data:`OF_THE_PLACE`.

    Raises ImpossibleValue for weather that cannot have been.
    Source: FAO Irrigation and Drainage Paper 56, Eq. 6, 19 and 47 to 52.
    """
    if any(day.get(key) is None for key in NEEDED):
        return None
    read = tuple((key, None if day.get(key) is None else float(day[key])) for key in READ)
    return _reference(
        read, on.timetuple().tm_yday, place, tuple((key, settings[key]) for key in OF_THE_PLACE)
    )


@lru_cache(maxsize=4096)
def _reference(read: tuple, number: int, place: Place, constants: tuple) -> Asked:
    """The same days are asked about by every green and every page."""
    day = dict(read)
    if any(day[key] is None for key in FOR_PENMAN_MONTEITH):
        return Asked(_hargreaves(day, number, place), HARGREAVES)
    return Asked(_penman_monteith(day, number, place, dict(constants)), PENMAN_MONTEITH)


def krs(settings: Settings) -> float:
    """Sunshine from the daily range for this place: between inland and coast as the club set it."""
    inland, coast = settings["sun.krs_inland"], settings["sun.krs_coast"]
    return inland + (coast - inland) * settings["sun.coast"]


def turf_water_mm(et0_mm: float, settings: Settings, season: str = "cool") -> float:
    """Water that turf with all it wants uses on a day, mm; ``season`` is "cool" or "warm".

    Source: FAO Irrigation and Drainage Paper 56, Table 12, as :func:`crop_evapotranspiration`.
    """
    return float(crop_evapotranspiration(et0_mm, settings[f"water.turf_coefficient_{season}"]))


def _hargreaves(day: Day, number: int, place: Place) -> float:
    low, high = (day[key] for key in NEEDED)
    return float(hargreaves_evapotranspiration(low, high, place.latitude_deg, number))


def _penman_monteith(day: Day, number: int, place: Place, settings: Settings) -> float:
    low, high = (day[key] for key in NEEDED)
    humidity, wind = (day[key] for key in FOR_PENMAN_MONTEITH)
    asked = reference_evapotranspiration(
        *place,
        number,
        high,
        low,
        ea_kpa=vapour_of_mean_humidity(high, low, humidity),
        **_sun(day, place.latitude_deg, number, settings),
        uz_m_s=wind,
        wind_height_m=settings["water.wind_height_m"],
        albedo=settings["sun.albedo"],
    )
    return max(0.0, float(asked))


def _sun(day: Day, latitude_deg: float, number: int, settings: Settings) -> dict[str, float]:
    """Sunshine as read, held to the length of the day; else the constant for the range of temperature."""
    if day["sunshine_h"] is None:
        return {"krs": krs(settings)}
    longest = float(daylight_hours(latitude_deg, number)) + BENDING_H
    return {"n_h": min(day["sunshine_h"], longest)}
