"""What a sprayer or a spreader puts out, checked by units with pint."""

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.calibration import (
    nozzle_test,
    pan_test,
    setting_factor,
    sprayer_output,
    spreader_output,
    travel_speed_km_h,
)
from growin.agronomy.impossible import ImpossibleValue

UNITS = pint.UnitRegistry()
above = st.floats(0.1, 50)


@given(above, above, st.floats(0.1, 10))
def test_a_sprayer_covers_speed_times_spacing(flow_l_min, speed_km_h, spacing_m):
    by_units = UNITS.Quantity(flow_l_min, "l/min") / (
        UNITS.Quantity(speed_km_h, "km/h") * UNITS.Quantity(spacing_m, "m")
    )
    assert sprayer_output(flow_l_min, speed_km_h, spacing_m) == pytest.approx(by_units.m_as("l/hectare"))


@given(st.floats(0, 1000), above)
def test_a_spreader_lays_what_was_caught(collected_g, area_m2):
    by_units = UNITS.Quantity(collected_g, "g") / UNITS.Quantity(area_m2, "m^2")
    assert spreader_output(collected_g, area_m2).rate_kg_ha == pytest.approx(by_units.m_as("kg/hectare"))


@pytest.mark.parametrize(
    "refused",
    [
        lambda: sprayer_output(-1, 5, 0.5),
        lambda: sprayer_output(1, 0, 0.5),
        lambda: sprayer_output(1, 5, 0),
        lambda: spreader_output(1, 0),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()


def test_five_pans_by_hand():
    # By hand: 6, 8, 10, 8, 8 g in pans of 0.25 m² are 8 g on average, 32 g/m²; spread 1.265 of 8 is 15.8 %
    found = pan_test([6, 8, 10, 8, 8], 0.25)
    assert found == pytest.approx((32, 320, 15.811), abs=1e-3)
    assert setting_factor(30, found.rate_g_m2) == pytest.approx(0.9375)


def test_four_nozzles_by_hand():
    # By hand: 400, 410, 390 and 500 ml in 30 s are 425 ml on average, 0.85 l/min; 500 is 17.6 % over it
    found = nozzle_test([400, 410, 390, 500], 30)
    assert (found.mean_l_min, found.boom_l_min, found.off) == (pytest.approx(0.85), pytest.approx(3.4), (4,))
    assert nozzle_test([400, 410, 390, 500], 30, off_percent=20).off == ()


def test_a_paced_distance_is_a_speed():
    assert travel_speed_km_h(50, 36) == pytest.approx(5)


@given(st.lists(st.floats(0.1, 50), min_size=1, max_size=20), st.floats(0.01, 1), st.floats(0.5, 4))
def test_twice_the_catch_is_twice_the_rate_and_as_even(pans, area_m2, times):
    plain, more = pan_test(pans, area_m2), pan_test([one * times for one in pans], area_m2)
    assert more.rate_g_m2 == pytest.approx(plain.rate_g_m2 * times)
    assert more.uneven_percent == pytest.approx(plain.uneven_percent, abs=1e-6)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: pan_test([], 0.25),
        lambda: pan_test([0, 0], 0.25),
        lambda: pan_test([-1, 2], 0.25),
        lambda: nozzle_test([], 30),
        lambda: nozzle_test([400], 0),
        lambda: setting_factor(0, 1),
        lambda: travel_speed_km_h(10, 0),
    ],
)
def test_a_catch_that_tells_nothing_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
