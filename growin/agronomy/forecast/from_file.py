"""A forecast from plain data and back to it, for the command line."""

from datetime import date, timedelta

from growin.agronomy import criteria, growth
from growin.agronomy.climate import Climate
from growin.agronomy.defaults import merge, values
from growin.agronomy.facts import HeightOnDay, ReadingFacts
from growin.agronomy.forecast import constants
from growin.agronomy.forecast.looking_ahead import forecast
from growin.agronomy.forecast.outcome import Forecast
from growin.agronomy.impossible import ImpossibleValue, require_range
from growin.agronomy.measures import clean_values, measure_of
from growin.agronomy.programme.as_json import (
    TABLES,
    check_file,
    climate_from,
    day_from,
    facts_from,
    number_from,
    rows_from,
)

READING_KEYS = ("measure", "on", "values")
_HEIGHTS_MM = (1.0, 100.0)


def default_settings() -> dict[str, float]:
    """Every constant of a forecast at its default."""
    return values(merge((*TABLES, criteria.DEFAULTS, growth.DEFAULTS, constants.DEFAULTS)))


def forecast_from_file(parsed) -> dict:
    """The forecast of a parsed file, as plain data with ISO dates.

    Raises
    ------
    ValueError
        For a word, a number or a date that is not known or not possible, in one sentence.
    """
    check_file(parsed)
    facts, climate = facts_from(parsed["green"]), climate_from(parsed["weather"])
    readings = [_reading(one) for one in rows_from("readings", parsed)]
    heights = [_height(one, facts.established_on) for one in rows_from("height_of_cut", parsed)]
    asks = [day_from("ask", one) for one in rows_from("ask", parsed)]
    today = _today(parsed, facts.established_on, climate, readings, heights)
    return as_json(forecast(facts, climate, readings, heights, today, default_settings(), asks))


def as_json(one: Forecast) -> dict:
    """A forecast as plain data."""
    return {
        "as_of": one.as_of.isoformat(),
        "opening": {
            "p10": _iso(one.p10),
            "p50": _iso(one.p50),
            "p90": _iso(one.p90),
            "within_season": one.within_season,
        },
        "ready_by": {day.isoformat(): chance for day, chance in one.ready_by.items()},
        "holding_back": dict(one.holding_back),
    }


def _iso(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def _reading(row) -> ReadingFacts:
    if not isinstance(row, dict) or set(row) != set(READING_KEYS):
        raise ValueError(f"A reading should hold {', '.join(READING_KEYS)}, not {row!r}.")
    if not isinstance(row["measure"], str):
        raise ValueError(f"The measure {row['measure']!r} is not a word.")
    measure = measure_of(row["measure"])
    on = day_from(f"reading of {measure.key}", row["on"])
    if not isinstance(row["values"], list):
        raise ValueError(f"values of {measure.key} should be a list, not {row['values']!r}.")
    return ReadingFacts(measure.key, on, clean_values(measure, row["values"]))


def _height(row, established_on: date) -> HeightOnDay:
    if not isinstance(row, list | tuple) or len(row) != 2:
        raise ValueError(f"A height of cut should be [date, mm], not {row!r}.")
    on, height_mm = day_from("height_of_cut", row[0]), number_from("height_of_cut", row[1])
    require_range("height_of_cut, mm", height_mm, *_HEIGHTS_MM)
    if on < established_on:
        right = f"on or after {established_on.isoformat()}, when the green was laid or sown"
        raise ImpossibleValue("day of a cut", on.isoformat(), right)
    return HeightOnDay(on, height_mm)


def _today(parsed: dict, established_on: date, climate: Climate, readings, heights) -> date:
    """The day of the forecast; where the file names none, the last day it knows of."""
    if parsed.get("today") is not None:
        return _plausible("today", day_from("today", parsed["today"]), established_on)
    known = [*climate.daily, *(one.on for one in readings), *(one.on for one in heights)]
    return _plausible("last day known", max([established_on, *known]), established_on)


def _plausible(what: str, today: date, established_on: date) -> date:
    earliest, latest = (established_on + timedelta(days=365 * years) for years in (-2, 10))
    if not earliest <= today <= latest:
        right = f"from {earliest.isoformat()} to {latest.isoformat()}, near the day of laying or sowing"
        raise ImpossibleValue(what, today.isoformat(), right)
    return today
