"""When to cut, and what clippings carry away."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.mowing import clipping_volume, clippings_nitrogen, one_third_rule


@given(st.floats(2, 100))
def test_the_cut_takes_a_third_of_the_leaf(height_mm):
    mow_at_mm = one_third_rule(height_mm)
    assert (mow_at_mm - height_mm) / mow_at_mm == pytest.approx(1 / 3)


@given(st.floats(0, 500), st.floats(0.02, 0.2), st.floats(0.1, 7))
def test_clippings_and_their_nutrient_turn_into_each_other(volume_ml_m2, dry_g_ml, percent):
    carried = clippings_nitrogen(volume_ml_m2, dry_g_ml, percent)
    grown = clipping_volume(carried.nutrient_g_m2, percent, dry_g_ml)
    assert grown == pytest.approx((carried.dry_matter_g_m2, volume_ml_m2))


@pytest.mark.parametrize(
    "refused",
    [
        lambda: one_third_rule(0),
        lambda: one_third_rule(5, 1),
        lambda: clippings_nitrogen(-1),
        lambda: clippings_nitrogen(1, 0),
        lambda: clipping_volume(1, 0),
        lambda: clipping_volume(1, 4, 2),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
