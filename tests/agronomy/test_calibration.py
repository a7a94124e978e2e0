"""What a sprayer or a spreader puts out, checked by units with pint."""

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.calibration import sprayer_output, spreader_output
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
