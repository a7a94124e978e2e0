"""What pipes carry and rain sends."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.drainage import drain_flow, drain_inflow, pipe_capacity
from growin.agronomy.impossible import ImpossibleValue


@given(st.floats(40, 200), st.floats(0.001, 0.1))
def test_four_times_the_fall_carries_twice_the_water(bore_mm, slope):
    assert pipe_capacity(bore_mm, 4 * slope) == pytest.approx(2 * pipe_capacity(bore_mm, slope))


@given(st.floats(40, 200))
def test_twice_the_bore_carries_more_than_six_times_the_water(bore_mm):
    # Manning: the flow grows with the bore to the power of 8/3
    assert pipe_capacity(2 * bore_mm, 0.005) / pipe_capacity(bore_mm, 0.005) == pytest.approx(2 ** (8 / 3))


def test_a_level_pipe_carries_nothing():
    assert pipe_capacity(100, 0) == 0


def test_a_lateral_carries_a_downpour_on_a_green():
    assert drain_inflow(6, 500) < pipe_capacity(65, 0.005) < drain_inflow(10, 500)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: pipe_capacity(0, 0.005),
        lambda: pipe_capacity(100, -0.005),
        lambda: pipe_capacity(100, 0.005, 0),
        lambda: drain_inflow(-1, 500),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()


def test_a_pipe_against_a_design_rain_by_hand():
    # By hand: 80 mm at 1 in 200, n 0.016, carries 1.637 l/s; 25 mm/h on 150 m² bring 1.042 l/s
    flow = drain_flow(80, 0.005, 150)
    assert flow == pytest.approx((1.0417, 1.637, True, 39.28), abs=0.01)
    assert not drain_flow(80, 0.005, 150, rain_mm_h=40).carries


@given(st.floats(40, 150), st.floats(0.001, 0.1), st.floats(10, 2000))
def test_the_most_rain_a_pipe_carries_is_just_carried(bore_mm, slope, area_m2):
    most = drain_flow(bore_mm, slope, area_m2).most_rain_mm_h
    assert drain_flow(bore_mm, slope, area_m2, most * 0.999).carries
    assert not drain_flow(bore_mm, slope, area_m2, most * 1.001).carries


def test_a_pipe_that_drains_nothing_is_refused():
    with pytest.raises(ImpossibleValue):
        drain_flow(80, 0.005, 0)
