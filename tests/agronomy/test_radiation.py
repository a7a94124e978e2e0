"""Sun and sky, against RefET (ASCE-EWRI, 2005) and printed examples."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from refet import calcs

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.radiation import (
    clear_sky_radiation,
    daylight_hours,
    extraterrestrial_radiation,
    net_radiation,
    solar_radiation,
)

DAYS = np.arange(1, 367)
settled = st.floats(-65, 65)


@pytest.mark.parametrize("latitude_deg", [-43.6, 0.0, 36.0, 52.5, 57.5])
def test_radiation_above_the_air_is_that_of_refet(latitude_deg):
    # RefET takes a solar constant of 4.92 MJ/m²/h, FAO 56 one of 4.92 rounded from 0.0820 a minute
    theirs = calcs.ra_daily(np.radians(latitude_deg), DAYS, method="asce")
    np.testing.assert_allclose(extraterrestrial_radiation(latitude_deg, DAYS), theirs, rtol=0.002, atol=0.01)


@given(settled)
def test_the_days_of_a_year_average_twelve_hours(latitude_deg):
    assert daylight_hours(latitude_deg, DAYS[:365]).mean() == pytest.approx(12, abs=0.05)


@given(st.floats(-90, 90), st.integers(1, 366))
def test_a_day_has_no_less_than_no_sun_and_no_more_than_all(latitude_deg, day):
    assert 0 <= daylight_hours(latitude_deg, day) <= 24
    assert 0 <= extraterrestrial_radiation(latitude_deg, day) < 50


def test_beyond_the_circle_the_sun_stays_up_or_down():
    assert daylight_hours(80.0, 172) == pytest.approx(24)
    assert (daylight_hours(80.0, 355), extraterrestrial_radiation(80.0, 355)) == (0, 0)
    assert solar_radiation(80.0, 355, sunshine_h=0) == 0


@given(settled, st.integers(1, 366), st.lists(st.floats(0, 1), min_size=2, max_size=2))
def test_more_sunshine_is_more_radiation(latitude_deg, day, shares):
    less, more = (daylight_hours(latitude_deg, day) * share for share in sorted(shares))
    radiation = [solar_radiation(latitude_deg, day, sunshine_h=hours) for hours in (less, more)]
    assert 0 <= radiation[0] <= radiation[1] <= clear_sky_radiation(latitude_deg, day, 0) * (1 + 1e-12)


def test_a_wider_range_of_temperature_means_a_clearer_day():
    narrow, wide = (
        solar_radiation(52, 100, maximum_c=top, minimum_c=5.0, krs=0.16)
        for top in (np.array([9.0]), np.array([14.0]))
    )
    assert (wide / narrow).item() == pytest.approx(1.5)


def test_clouds_hold_the_warmth_of_the_ground():
    clear, dull = (net_radiation(solar, 28.0, 25.0, 15.0, 1.5) for solar in (28.0, 10.0))
    assert 0 < dull.net_longwave_mj_m2_day < clear.net_longwave_mj_m2_day


def test_in_polar_night_the_ground_only_loses():
    night = net_radiation(0.0, 0.0, -10.0, -20.0, 0.2)
    assert night.net_radiation_mj_m2_day == -night.net_longwave_mj_m2_day < 0


@pytest.mark.parametrize(
    ("refused", "sentence"),
    [
        (
            lambda: extraterrestrial_radiation(91, 1),
            "latitude, degrees: 91 is not possible; it should be from -90 to 90.",
        ),
        (lambda: daylight_hours(50, 0), "day of the year: 0 is not possible; it should be from 1 to 366."),
        (
            lambda: solar_radiation(50.8, 187, sunshine_h=18),
            "sunshine, h: 18 is not possible; it should be at most the 16.1 h of that day.",
        ),
        (
            lambda: solar_radiation(50, 1),
            "input: neither or both is not possible; it should be sunshine, or maximum, minimum and krs.",
        ),
        (
            lambda: solar_radiation(50, 1, sunshine_h=1, krs=0.16),
            "input: neither or both is not possible; it should be sunshine, or maximum, minimum and krs.",
        ),
        (
            lambda: clear_sky_radiation(50, 1, 20_000),
            "altitude, m: 20000 is not possible; it should be from -500 to 9000.",
        ),
    ],
)
def test_the_impossible_is_refused_with_its_value(refused, sentence):
    with pytest.raises(ImpossibleValue) as told:
        refused()
    assert str(told.value) == sentence
