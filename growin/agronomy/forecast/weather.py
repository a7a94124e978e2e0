"""Weather to come: many courses of daily means, drawn from the club's own seasons or from its normals.

Each course is the normal of the day plus a departure from it. Where the club has years of
its own, departures are taken in blocks of a season, each from one past year and shifted by a
few days, so that warm and cold spells keep their length. Where it has none, they are
autocorrelated noise, and the normals themselves may be a little off.
"""

from collections.abc import Mapping
from datetime import date, timedelta

import numpy as np

from growin.agronomy.climate import Climate, day_of_curve, smooth_year

_DAY = timedelta(days=1)
_YEAR = 365.25
_MOST_YEARS_BACK = 60
_ENOUGH_OF_A_BLOCK = 0.8


def weather_paths(
    climate: Climate, as_of: date, days: int, settings: Mapping[str, float], rng: np.random.Generator
) -> np.ndarray:
    """Daily means, °C, (days, paths), from the day ``as_of`` on; that day itself as measured where it was."""
    paths = int(settings["forecast.weather.paths"])
    departures = _noise(climate, as_of, (days, paths), settings["forecast.weather.memory"], rng)
    off_c = settings["forecast.weather.normals_off_c"] * rng.standard_normal(paths)
    if not _from_own_years(departures, climate, as_of, settings, rng):
        departures += off_c
    departures += normals_from(climate, as_of, days)[:, None]
    if climate.is_measured(as_of):
        departures[0] = climate.mean_c(as_of)
    return departures


def normals_from(climate: Climate, start: date, days: int) -> np.ndarray:
    """Normals of so many days in a row, °C."""
    year = np.array(smooth_year(climate.normals_c))
    return year[[day_of_curve(start + n * _DAY) for n in range(days)]]


def years_on_record(climate: Climate, as_of: date, settings: Mapping[str, float]) -> int:
    """How many past seasons like the one ahead the club has measured; 0 where they are too few to use."""
    departures, first = _record(climate, as_of)
    seasons = _seasons_like(departures, first, as_of, int(settings["forecast.weather.block_days"]))
    return len(seasons) if len(seasons) >= settings["forecast.weather.least_years"] else 0


def _noise(climate: Climate, as_of: date, shape: tuple[int, int], memory: float, rng) -> np.ndarray:
    """Autocorrelated departures; what is left of the last measured day's own fades from day to day.

    Every path has a mirror image, so that together they keep to the normals.
    Source: first-order autoregression and antithetic variates, any text on simulation.
    """
    days, paths = shape
    fresh = (1 - memory**2) ** 0.5
    last = max((one for one in (as_of, as_of - _DAY) if climate.is_measured(one)), default=None)
    noise = rng.standard_normal((days, (paths + 1) // 2))
    noise *= climate.spread_c
    noise[0 if last else 1 :] *= fresh
    _carry_on(noise, memory)
    both = np.empty(shape)
    both[:, : noise.shape[1]] = noise
    np.negative(noise[:, : paths - noise.shape[1]], out=both[:, noise.shape[1] :])
    if last:
        left = (climate.mean_c(last) - climate.normal_c(last)) * memory ** np.arange(1.0, days + 1)
        both += left[:, None]
    return both


def _carry_on(noise: np.ndarray, memory: float) -> None:
    carried = np.empty(noise.shape[1])
    for today, before in zip(noise[1:], noise[:-1], strict=True):
        np.multiply(before, memory, out=carried)
        today += carried


def _record(climate: Climate, as_of: date) -> tuple[np.ndarray, date]:
    """Departures of the measured days from their normals, nan where none was measured, and the first day."""
    measured = [one for one in climate.daily if one <= as_of]
    if not measured:
        return np.empty(0), as_of
    first = min(measured)
    departures = np.full((max(measured) - first).days + 1, np.nan)
    for one in measured:
        departures[(one - first).days] = climate.daily[one] - climate.normal_c(one)
    return departures, first


def _seasons_like(departures: np.ndarray, first: date, start: date, length: int) -> list[int]:
    """Days to go back from a block to the same season of each past year that was measured well enough."""
    back = []
    for years in range(1, _MOST_YEARS_BACK):
        days_back = round(years * _YEAR)
        begins = (start - first).days - days_back
        if begins < 0:
            break
        block = departures[begins : begins + length]
        if len(block) == length and np.isfinite(block).mean() >= _ENOUGH_OF_A_BLOCK:
            back.append(days_back)
    return back


def _from_own_years(departures: np.ndarray, climate: Climate, as_of: date, settings, rng) -> bool:
    """Put blocks of past seasons over the noise; whether any was."""
    record, first = _record(climate, as_of)
    length = int(settings["forecast.weather.block_days"])
    used = False
    for begins in range(0, len(departures), length):
        start = as_of + begins * _DAY
        back = _seasons_like(record, first, start, length)
        if len(back) >= settings["forecast.weather.least_years"]:
            block = departures[begins : begins + length]
            _take_seasons(block, record, (start - first).days - np.array(back), settings, rng)
            used = True
    return used


def _take_seasons(block: np.ndarray, record: np.ndarray, begins: np.ndarray, settings, rng) -> None:
    """Each path takes one past season, shifted by a few days; days missing in it keep their noise."""
    days, paths = block.shape
    shift = int(settings["forecast.weather.shift_days"])
    starts = rng.choice(begins, paths) + rng.integers(-shift, shift + 1, paths)
    taken = record[np.clip(starts + np.arange(days)[:, None], 0, len(record) - 1)]
    np.copyto(block, taken, where=np.isfinite(taken))
