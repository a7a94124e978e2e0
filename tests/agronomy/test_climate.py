from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.climate import Climate, degree_days, potential, smooth_year
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.normals import monthly_means
from tests.agronomy.climates import ENGLAND, HARD_WINTER

CLIMATE = Climate(ENGLAND)
JANUARY, LATE_APRIL = date(2026, 1, 1), date(2026, 4, 20)


def test_the_smooth_year_keeps_every_monthly_mean():
    assert monthly_means(smooth_year(ENGLAND)) == pytest.approx(ENGLAND)


@pytest.mark.parametrize(
    ("clock", "laid", "opened", "printed"),
    [
        # Growth days of laying 10 November to opening 20 April, northern England, day-to-day spread 3 °C:
        # our own table of published rules, 10.5, 20.2; and of 10 October to 15 April, 16.0, 29.2.
        (potential(20, 5.5), date(2025, 11, 10), date(2026, 4, 20), 10.5),
        (potential(18, 5.5), date(2025, 11, 10), date(2026, 4, 20), 20.2),
        (potential(20, 5.5), date(2025, 10, 10), date(2026, 4, 15), 16.0),
        (potential(18, 5.5), date(2025, 10, 10), date(2026, 4, 15), 29.2),
        (potential(18, 5.5), date(2025, 9, 1), date(2027, 3, 1), 196.3),
    ],
)
def test_clocks_agree_with_the_table_of_published_rules(clock, laid, opened, printed):
    # Within 6 %: the table was made with another smoothing of the months.
    assert CLIMATE.sum_between(clock, laid, opened) == pytest.approx(printed, rel=0.06)


def test_leaf_growth_of_an_english_spring():
    # Degree-days base 6 from 1 January to 20 April: central England 143, Scotland 116 (from memory), without
    # the spread about the mean this counts more; northern England lies between.
    grown = CLIMATE.sum_between(degree_days(6), JANUARY, LATE_APRIL)
    assert 100 < grown < 143


def test_an_estimated_day_takes_the_expectation_not_the_mean():
    freezing = Climate((0.0,) * 12)
    # E[max(X, 0)] of a normal variable about 0 with spread 3 is 3/√(2π) = 1.197.
    assert freezing.worth(degree_days(0), JANUARY) == pytest.approx(1.197, abs=0.001)
    assert Climate((0.0,) * 12, daily={JANUARY: 0.0}).worth(degree_days(0), JANUARY) == 0.0


def test_a_measured_day_is_marked_and_counts_as_it_was():
    climate = Climate(ENGLAND, daily={JANUARY: 9.5})
    assert climate.mean_c(JANUARY) == 9.5
    assert climate.is_measured(JANUARY)
    assert not climate.is_measured(JANUARY + timedelta(days=1))
    assert climate.measured_share(JANUARY, JANUARY + timedelta(days=4)) == 0.25


def test_english_spring_and_autumn_days():
    spring = date(2026, 2, 1)
    days = [CLIMATE.first_week_at(spring, mean_c) for mean_c in (6, 8)]
    assert days == [date(2026, 3, 17), date(2026, 4, 13)]
    assert CLIMATE.growth_stops(date(2026, 7, 1)) == date(2026, 11, 23)


def test_where_growth_never_stops_there_is_no_day():
    assert Climate((20.0,) * 12).growth_stops(JANUARY) is None


def test_soil_must_have_held_for_a_week():
    cold_day = date(2026, 5, 10)
    climate = Climate((10.0,) * 12, daily={cold_day: -60.0})
    assert climate.soil_held(cold_day, 6) == cold_day + timedelta(days=13)


def test_a_clock_that_never_gets_there_says_none():
    assert Climate((-30.0,) * 12).day_when(degree_days(0), JANUARY, 100) is None


def test_the_leap_day_shares_the_day_before():
    assert CLIMATE.normal_c(date(2028, 2, 29)) == CLIMATE.normal_c(date(2028, 2, 28))


@given(st.floats(-2, 2))
def test_a_warmer_place_is_never_behind(by_c):
    warm, cold = CLIMATE.shifted(abs(by_c)), CLIMATE.shifted(-abs(by_c))
    sums = [one.sum_between(degree_days(0), JANUARY, LATE_APRIL) for one in (cold, CLIMATE, warm)]
    assert sums == sorted(sums)


def test_hard_winters_stand_still():
    climate = Climate(HARD_WINTER)
    assert climate.sum_between(degree_days(6), date(2025, 12, 1), date(2026, 2, 1)) < 0.1
    assert np.isclose(climate.mean_c(date(2026, 1, 15)), -10.4, atol=1)


@pytest.mark.parametrize("normals", [ENGLAND[:11], (*ENGLAND[:11], 70.0), (*ENGLAND[:11], float("nan"))])
def test_impossible_normals_are_refused(normals):
    with pytest.raises(ImpossibleValue):
        Climate(normals)
