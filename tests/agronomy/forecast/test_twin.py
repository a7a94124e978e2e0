"""The arrays do what the readable twin says, to rounding."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from growin.agronomy.climate import Climate
from growin.agronomy.forecast import looking_ahead
from growin.agronomy.forecast.crossing import cross
from growin.agronomy.forecast.greens_drawn import draw_greens
from growin.agronomy.forecast.sighting import sightings_of
from growin.agronomy.forecast.weather import weather_paths
from growin.agronomy.forecast.weighing import log_likelihood
from tests.agronomy.climates import ENGLAND, HARD_WINTER
from tests.agronomy.forecast import twin
from tests.agronomy.forecast.asked import (
    FAVOURABLE,
    SETTINGS,
    a_ready_set,
    at_opening_height,
    green,
    reading,
)

SMALL = SETTINGS | {"forecast.weather.paths": 40, "forecast.weather.draws": 50}
MARCH, MAY = date(2026, 3, 3), date(2026, 5, 1)
SEEDED = green("seed", "creeping bent", date(2026, 5, 10), 41)
READ = [
    reading("rooting_depth", MARCH, 22, 31, 28, 35, 26),
    reading("hand_pull", MARCH, True, True, False, True, True, True, False, True, True, False),
    reading("lip", MARCH, *[1.0] * 18, 3.0, 4.0),
    reading("hole", MARCH, True, False, True),
    reading("ball_roll", MARCH, False),
    reading("standing_water_free", MARCH, False),
]
CASES = {
    "day one, turf": (green(), ENGLAND, date(2025, 10, 20), [], []),
    "day one, seed": (SEEDED, FAVOURABLE, date(2026, 5, 10), [], []),
    "half-way, turf": (green(), ENGLAND, MARCH, READ, at_opening_height(MARCH, MARCH)),
    "all met": (green(), ENGLAND, MAY, a_ready_set(MAY), at_opening_height(date(2026, 4, 1), MAY)),
    "hard winter": (green(on=date(2025, 12, 1)), HARD_WINTER, date(2026, 1, 5), [], []),
    "fescue seed": (green("seed", on=date(2025, 9, 1)), ENGLAND, date(2026, 4, 1), [], []),
}


def question(case: str):
    facts, normals, as_of, readings, heights = CASES[case]
    climate = Climate(normals, daily={as_of: 7.5})
    return looking_ahead._question(facts, climate, readings, heights, as_of, SMALL, None, False)


@pytest.mark.parametrize("case", CASES)
def test_every_green_opens_on_the_same_day_and_for_the_same_reason(case):
    asked = question(case)
    course, _ = looking_ahead.course_of(asked, np.random.default_rng(1))
    days = int(course.days[-1]) + 1
    paths = weather_paths(asked.climate, asked.starts_on, days, SMALL, np.random.default_rng(2))
    opening, last = cross(paths, course)
    assert (opening.tolist(), last.tolist()) == twin.crossed(paths, course)


def test_a_short_horizon_ends_on_the_same_days_too():
    asked = replace(question("day one, turf"), settings=SMALL | {"forecast.horizon_days": 180})
    course, _ = looking_ahead.course_of(asked, np.random.default_rng(1))
    paths = weather_paths(asked.climate, asked.starts_on, 181, SMALL, np.random.default_rng(2))
    opening, last = cross(paths, course)
    assert (opening.max(), course.beyond) == (181, 181)
    assert (opening.tolist(), last.tolist()) == twin.crossed(paths, course)


@pytest.mark.parametrize("readings", [READ, [*READ, *a_ready_set(MAY)]], ids=["once", "twice"])
def test_the_readings_weigh_every_green_the_same(readings):
    asked = replace(question("half-way, turf"), as_of=MAY)
    greens = draw_greens(asked.family, SMALL, 300, np.random.default_rng(3))
    evidence = replace(asked.evidence, readings=readings)
    seen = sightings_of(evidence, asked.family, asked.climate, asked.facts.established_on, MAY, SMALL)
    assert len(seen) == len(readings) - 1  # standing water is no matter of the clock
    np.testing.assert_allclose(
        log_likelihood(greens, seen, 50, SMALL), twin.log_likelihood(greens, seen, 50, SMALL), rtol=1e-9
    )
