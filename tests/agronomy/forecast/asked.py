"""Greens that the tests of the forecast ask about."""

import json
from datetime import date, timedelta
from pathlib import Path

from growin.agronomy.climate import Climate
from growin.agronomy.facts import HeightOnDay, ReadingFacts
from growin.agronomy.forecast import forecast
from growin.agronomy.programme.facts import GreenFacts
from growin.agronomy.settings_table import default_values
from tests.agronomy.climates import ENGLAND

DAY = timedelta(days=1)
#: Warm enough for bent from May to September: northern United States, from memory.
FAVOURABLE = (-5, -4, 1.5, 8, 14.5, 19.5, 22, 21, 17, 10.5, 4, -2)
SETTINGS = default_values()
QUICK = SETTINGS | {"forecast.weather.paths": 200, "forecast.weather.draws": 200}
HISTORIES = json.loads((Path(__file__).parents[1] / "histories.json").read_text("utf-8"))["histories"]


def green(establishment="turf_relaid", species="fescue/bent", on=date(2025, 10, 20), latitude=54.0, **more):
    return GreenFacts(450, establishment, species, on, latitude, **more)


def asked(
    facts=None, normals=ENGLAND, as_of=None, readings=(), heights=(), daily=None, settings=QUICK, **more
):
    """The forecast of a green, on the day of laying where no other is named."""
    facts = facts or green()
    climate = Climate(normals, daily=daily or {})
    return forecast(facts, climate, readings, heights, as_of or facts.established_on, settings, **more)


def reading(measure: str, on: date, *values) -> ReadingFacts:
    return ReadingFacts(measure, on, list(values))


def a_ready_set(on: date) -> list[ReadingFacts]:
    """Every measure of turf read as plainly met."""
    return [
        reading("hand_pull", on, *[True] * 10),
        reading("rooting_depth", on, 80, 90, 85, 95, 88),
        reading("hole", on, True, True, True),
        reading("drop", on, *[True] * 9),
        reading("joint_gap", on, *[1.0] * 20),
        reading("lip", on, *[0.5] * 20),
        reading("dip", on, *[1.0] * 12),
    ]


def at_opening_height(since: date, until: date) -> list[HeightOnDay]:
    """Cut at the opening height of fescue/bent every third day."""
    return [HeightOnDay(since + n * DAY, 5.5, measured=True) for n in range(0, (until - since).days + 1, 3)]
