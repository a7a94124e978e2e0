"""A day's water from what was written down, and the rootzone's balance."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.day_water import (
    HARGREAVES,
    PENMAN_MONTEITH,
    Asked,
    Place,
    krs,
    reference_of_day,
    turf_water_mm,
)
from growin.agronomy.evapotranspiration import hargreaves_evapotranspiration, vapour_of_mean_humidity
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.rootzone_water import DayOfWater, Store, standing, store_of, to_give_mm
from growin.agronomy.settings_table import default_values

SETTINGS = default_values()
BRUSSELS = Place(50.8, 100)
JULY = date(2025, 7, 6)
WHOLE = {"min_c": 12.3, "max_c": 21.5, "humidity_percent": 73, "wind_m_s": 2.78, "sunshine_h": 9.25}


def test_a_whole_day_is_worked_out_by_penman_monteith():
    # FAO 56, Example 18 (Brussels, 6 July): 3.9 mm; its humidities 84 and 63 % taken as their mean
    asked = reference_of_day(WHOLE, JULY, BRUSSELS, SETTINGS)
    assert asked == Asked(pytest.approx(3.9, abs=0.1), PENMAN_MONTEITH)


def test_mean_humidity_gives_the_vapour_of_the_print():
    # FAO 56, Example 5: 25 and 18 °C at a mean of 68 %, 1.78 kPa
    assert vapour_of_mean_humidity(25, 18, 68) == pytest.approx(1.78, abs=0.005)


@pytest.mark.parametrize("gone", ["humidity_percent", "wind_m_s"])
def test_without_humidity_or_wind_it_is_hargreaves(gone):
    asked = reference_of_day(WHOLE | {gone: None}, JULY, BRUSSELS, SETTINGS)
    expected = float(hargreaves_evapotranspiration(12.3, 21.5, 50.8, 187))
    assert asked == Asked(pytest.approx(expected), HARGREAVES)


def test_without_sunshine_the_range_of_temperature_tells_it():
    asked = reference_of_day(WHOLE | {"sunshine_h": None}, JULY, BRUSSELS, SETTINGS)
    assert asked.method == PENMAN_MONTEITH
    coast = reference_of_day(WHOLE | {"sunshine_h": None}, JULY, BRUSSELS, SETTINGS | {"sun.coast": 1})
    assert coast.et0_mm > asked.et0_mm


@pytest.mark.parametrize("gone", ["min_c", "max_c"])
def test_without_its_extremes_a_day_is_not_known(gone):
    assert reference_of_day(WHOLE | {gone: None}, JULY, BRUSSELS, SETTINGS) is None


@pytest.mark.parametrize(
    ("key", "value"), [("sun.albedo", 0.30), ("water.wind_height_m", 2.0), ("sun.krs_inland", 0.2)]
)
def test_every_setting_of_the_club_counts(key, value):
    day = WHOLE | ({"sunshine_h": None} if key.startswith("sun.krs") else {})
    default, own = (reference_of_day(day, JULY, BRUSSELS, one) for one in (SETTINGS, SETTINGS | {key: value}))
    assert default.et0_mm != own.et0_mm


def test_between_inland_and_coast():
    assert (krs(SETTINGS), krs(SETTINGS | {"sun.coast": 0.5})) == (0.16, pytest.approx(0.175))


def test_turf_takes_its_share_of_the_reference():
    # FAO 56, Table 12: turf grass 0.95 cool-season, 0.85 warm-season
    assert (turf_water_mm(4, SETTINGS), turf_water_mm(4, SETTINGS, "warm")) == pytest.approx((3.8, 3.4))


def days(*water, start=date(2026, 6, 1), rain=()):
    return [
        DayOfWater(start + timedelta(days=n), dict(rain).get(n, 0.0), 0.0, mm) for n, mm in enumerate(water)
    ]


def test_a_rootzone_runs_down_by_hand():
    # By hand: (20 − 5) % of 100 mm hold 15 mm, 40 % of it are 6 mm; three days of 2.5 mm take 7.5
    now = standing(days(2.5, 2.5, 2.5), Store(20, 5, 100), 0.4)
    assert (now.total_mm, now.readily_mm, now.depletion_mm, now.left_mm) == pytest.approx((15, 6, 7.5, 7.5))
    assert (now.is_due, now.days_left, now.full_on, to_give_mm(now)) == (True, 0, None, pytest.approx(7.5))


def test_rain_that_fills_it_is_the_day_it_was_full():
    now = standing(days(2.5, 2.5, 2.5, 2.5, rain=[(2, 20.0)]), Store(20, 5, 100), 0.4)
    assert now.full_on == date(2026, 6, 3)
    assert now.depletion_mm == pytest.approx(5.0)
    assert (now.is_due, now.days_left, to_give_mm(now)) == (False, 0, 0)


def test_a_reading_of_moisture_sets_where_it_starts():
    # By hand: 14 % where 20 % could be, over 100 mm, is 6 mm short
    store = Store(20, 5, 100)
    assert store.depletion_mm(14) == pytest.approx(6)
    assert store.depletion_mm(35) == 0
    assert store.depletion_mm(2) == pytest.approx(15)
    assert standing(days(1.0), store, 0.4, store.depletion_mm(14)).depletion_mm == pytest.approx(7.0)


def test_what_is_known_of_the_build_and_the_roots_counts_before_the_settings():
    assert store_of(SETTINGS) == Store(20, 5, 100)
    assert store_of(SETTINGS, 17.5, 62) == Store(17.5, 5, 62)


@given(
    st.lists(st.tuples(st.floats(0, 30), st.floats(0, 8)), min_size=1, max_size=60),
    st.floats(6, 40),
    st.floats(20, 250),
    st.floats(0.1, 0.8),
)
def test_water_is_neither_made_nor_lost(weather, capacity, depth, share):
    first = date(2026, 5, 1)
    run = [DayOfWater(first + timedelta(days=n), rain, 0.0, used) for n, (rain, used) in enumerate(weather)]
    now = standing(run, Store(capacity, 5, depth), share)
    assert -1e-9 <= now.depletion_mm <= now.total_mm + 1e-9
    assert 0 <= to_give_mm(now) <= now.total_mm + 1e-9


@given(st.lists(st.floats(0, 20), min_size=2, max_size=2))
def test_more_rain_never_leaves_it_drier(rains):
    little, much = sorted(rains)
    left = [standing(days(3, 3, 3, rain=[(1, mm)]), Store(20, 5, 100), 0.4).left_mm for mm in (little, much)]
    assert left[0] <= left[1] + 1e-9


def test_days_must_follow_each_other():
    gap = [DayOfWater(date(2026, 6, day), 0.0, 0.0, 2.0) for day in (1, 3)]
    for wrong in ([], gap):
        with pytest.raises(ImpossibleValue):
            standing(wrong, Store(20, 5, 100), 0.4)


def test_a_day_of_weather_never_asks_for_less_than_nothing():
    cold = {"min_c": -12, "max_c": -8, "humidity_percent": 100, "wind_m_s": 0.0, "sunshine_h": 0}
    assert reference_of_day(cold, date(2026, 1, 3), Place(57, 20), SETTINGS).et0_mm >= 0


def test_sunshine_longer_than_the_day_is_held_to_it():
    long = reference_of_day(WHOLE | {"sunshine_h": 24}, JULY, BRUSSELS, SETTINGS)
    assert np.isfinite(long.et0_mm)
