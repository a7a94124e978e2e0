"""Speed of a green."""

import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.green_speed import green_speed, green_speed_from_rolls
from growin.agronomy.impossible import ImpossibleValue

roll = st.floats(0.5, 12)


@given(roll, roll)
def test_a_slope_reads_between_its_two_rolls_and_never_above_their_mean(up_m, down_m):
    level_m = green_speed(up_m, down_m)
    assert level_m == pytest.approx(statistics.harmonic_mean([up_m, down_m]))
    assert min(up_m, down_m) - 1e-9 <= level_m <= (up_m + down_m) / 2 + 1e-9


def test_seven_feet_up_and_twelve_down_is_not_nine_and_a_half():
    # Brede, 1990/91, as worked in the trade: 8.84 ft
    assert green_speed(7, 12) == pytest.approx(8.84, abs=0.005)


@given(st.lists(roll, min_size=1, max_size=5), st.lists(roll, min_size=1, max_size=5))
def test_it_does_not_matter_which_way_was_first(first, second):
    assert green_speed_from_rolls(first, second) == green_speed_from_rolls(second, first)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: green_speed(0, 3),
        lambda: green_speed(3, 31),
        lambda: green_speed_from_rolls([], [3]),
        lambda: green_speed_from_rolls([3], [3, -1]),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
