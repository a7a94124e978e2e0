"""Water that grass and air ask for, against RefET (ASCE-EWRI, 2005) and a real record."""

import numpy as np
import pytest
import refet
from hypothesis import given
from hypothesis import strategies as st
from refet import calcs
from vega_datasets import data

from growin.agronomy.evapotranspiration import (
    crop_evapotranspiration,
    hargreaves_evapotranspiration,
    psychrometric_constant,
    reference_evapotranspiration,
    saturation_pressure,
    vapour_pressure,
    wind_speed_two_metres,
)
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.radiation import clear_sky_radiation, solar_radiation

DAY = {"latitude_deg": 50.8, "altitude_m": 100, "day_of_year": 187, "tmax_c": 21.5, "tmin_c": 12.3}
air = st.floats(-20, 35)


def test_a_real_record_gives_the_water_refet_gives():
    # RefET counts no sky duller than 0.3 of a clear one, FAO 56 does: such days are left out
    days = data.seattle_weather().set_index("date")
    day_of_year = days.index.day_of_year.to_numpy()
    high, low, wind = (days[name].to_numpy() for name in ("temp_max", "temp_min", "wind"))
    solar = solar_radiation(47.6, day_of_year, maximum_c=high, minimum_c=low, krs=0.19)
    theirs = refet.Daily(
        tmin=low, tmax=high, tdew=low, rs=solar, uz=wind, zw=10, elev=40, lat=47.6, doy=day_of_year,
        method="asce", rso_type="simple",
    ).eto()  # fmt: skip
    ours = reference_evapotranspiration(
        47.6, 40, day_of_year, high, low, tdew_c=low, rs_mj_m2_day=solar, uz_m_s=wind, wind_height_m=10
    )
    bright = solar / clear_sky_radiation(47.6, day_of_year, 40) >= 0.3
    assert bright.sum() > 1400
    np.testing.assert_allclose(ours[bright], theirs[bright], atol=0.002)
    assert 500 < ours[:366].sum() < 1000


def test_vapour_of_saturated_air_is_that_of_refet():
    temperatures = np.linspace(-30, 50, 200)
    np.testing.assert_allclose(
        saturation_pressure(temperatures), calcs.sat_vapor_pressure(temperatures), rtol=1e-3
    )


def test_the_whole_of_an_example_from_its_humidities_and_wind_at_ten_metres():
    # FAO Irrigation and Drainage Paper 56, Example 18 (Brussels, 6 July): 3.9 mm a day, printed to 0.1
    water = reference_evapotranspiration(
        **DAY, rhmax_percent=84, rhmin_percent=63, n_h=9.25, uz_m_s=10 / 3.6, wind_height_m=10
    )
    assert water == pytest.approx(3.9, abs=0.05)


@given(st.lists(st.floats(0.3, 6), min_size=2, max_size=2))
def test_wind_in_dry_air_never_asks_for_less(winds):
    asked = [
        reference_evapotranspiration(**DAY, ea_kpa=0.8, rs_mj_m2_day=15, u2_m_s=wind)
        for wind in sorted(winds)
    ]
    assert asked[0] <= asked[1] + 1e-12


@given(air, st.floats(0, 20), st.floats(0, 100), st.floats(0, 100))
def test_the_deficit_is_what_is_missing_to_saturation(minimum_c, range_c, first, second):
    highest, lowest = max(first, second), min(first, second)
    vapour = vapour_pressure(minimum_c + range_c, minimum_c, highest, lowest)
    assert vapour.actual_kpa + vapour.deficit_kpa == pytest.approx(vapour.saturation_kpa)
    assert vapour.actual_kpa >= 0


def test_without_moisture_only_saturation_is_known():
    assert vapour_pressure(24.5, 15.0)[1:] == (None, None)


def test_air_thins_with_height():
    # FAO 56, Annex 2, Table 2.1 and 2.2: 101.3 kPa and 0.067 at the sea, 90.0 and 0.060 at 1000 m
    air_at = psychrometric_constant(np.array([0, 1000]))
    assert air_at.pressure_kpa.round(1).tolist() == [101.3, 90.0]
    assert air_at.psychrometric_constant_kpa_c.round(3).tolist() == [0.067, 0.06]


def test_wind_is_weaker_near_the_ground():
    # FAO 56, Annex 2, Table 2.9: 1.000 at 2 m, 0.748 at 10 m
    assert wind_speed_two_metres(1.0, 2) == pytest.approx(1, abs=0.0005)
    assert wind_speed_two_metres(1.0, 10) == pytest.approx(0.748, abs=0.0005)


@given(air, st.floats(0, 25), st.floats(-60, 60), st.integers(1, 366))
def test_the_short_formula_never_asks_for_less_than_nothing(minimum_c, range_c, latitude_deg, day):
    assert hargreaves_evapotranspiration(minimum_c, min(minimum_c + range_c, 60), latitude_deg, day) >= 0


def test_turf_asks_for_less_than_the_reference():
    assert crop_evapotranspiration(np.array([4.0, 5.0]), 0.85).tolist() == [3.4, 4.25]


@pytest.mark.parametrize(
    ("given_too", "what"),
    [
        ({"rs_mj_m2_day": 15, "u2_m_s": 2}, "vapour pressure"),
        ({"ea_kpa": 1.2, "tdew_c": 10, "rs_mj_m2_day": 15, "u2_m_s": 2}, "vapour pressure"),
        ({"rhmax_percent": 90, "rs_mj_m2_day": 15, "u2_m_s": 2}, "humidity"),
        ({"ea_kpa": 1.2, "u2_m_s": 2}, "radiation"),
        ({"ea_kpa": 1.2, "u2_m_s": 2, "n_h": 5, "krs": 0.16}, "radiation"),
        ({"ea_kpa": 1.2, "rs_mj_m2_day": 15}, "wind"),
        ({"ea_kpa": 1.2, "rs_mj_m2_day": 15, "u2_m_s": 2, "uz_m_s": 2, "wind_height_m": 10}, "wind"),
        ({"ea_kpa": 1.2, "rs_mj_m2_day": 15, "uz_m_s": 2}, "wind"),
        ({"ea_kpa": 5.0, "rs_mj_m2_day": 15, "u2_m_s": 2}, "vapour pressure, kPa"),
        ({"ea_kpa": 1.2, "rs_mj_m2_day": 15, "u2_m_s": -2}, "wind, m/s"),
        (
            {"ea_kpa": 1.2, "rs_mj_m2_day": 15, "u2_m_s": 2, "g_mj_m2_day": 50},
            "heat into the soil, MJ/m² a day",
        ),
    ],
)
def test_a_day_with_too_little_or_too_much_is_refused(given_too, what):
    with pytest.raises(ImpossibleValue) as told:
        reference_evapotranspiration(**DAY, **given_too)
    assert told.value.what == what


@pytest.mark.parametrize(
    "refused",
    [
        lambda: saturation_pressure(100),
        lambda: wind_speed_two_metres(3, 0.1),
        lambda: psychrometric_constant(-1000),
        lambda: crop_evapotranspiration(4, 1, 1.5),
        lambda: hargreaves_evapotranspiration(10, 5, 50, 1),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
