"""Growth potential and degree days, on days and on a real maritime record."""

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from vega_datasets import data

from growin.agronomy.growth import (
    degree_days_above,
    expected_degree_days,
    expected_growth_potential,
    growing_degree_days,
    growth_potential,
    mean_temperature,
)
from growin.agronomy.impossible import ImpossibleValue

air = st.floats(-20, 40)
near = st.floats(-10, 22)  # so that no point of a quadrature leaves the earth


@pytest.fixture(scope="module")
def maritime() -> pd.DataFrame:
    """1,461 days of Seattle, 2012 to 2015 (NOAA, as carried by vega_datasets)."""
    return data.seattle_weather().set_index("date")


def test_growth_potential_by_the_trades_table():
    # Gelernter & Stowell, 2005, with 20 and 5.5 °C, printed to two decimals
    shares = growth_potential(np.array([6, 8, 10, 12, 14, 16, 18, 20.0]))
    assert shares.round(2).tolist() == [0.04, 0.09, 0.19, 0.35, 0.55, 0.77, 0.94, 1.0]


def test_a_real_record_gives_the_growth_a_bare_sum_gives(maritime):
    mean_c = mean_temperature(maritime.temp_max, maritime.temp_min)
    bare = np.exp(-0.5 * ((maritime[["temp_max", "temp_min"]].mean(axis=1) - 20) / 5.5) ** 2)
    pd.testing.assert_series_equal(growth_potential(mean_c), bare, check_names=False)
    assert bare.groupby(bare.index.year).sum().between(140, 175).all()


def test_a_real_record_gives_the_degree_days_a_bare_sum_gives(maritime):
    bare = maritime[["temp_max", "temp_min"]].mean(axis=1).sub(6).clip(lower=0)
    ours = growing_degree_days(maritime.temp_max, maritime.temp_min, 6)
    np.testing.assert_allclose(ours, bare, atol=1e-12)
    held = maritime[["temp_max", "temp_min"]].clip(10, 30).mean(axis=1).sub(10)
    clamped = growing_degree_days(maritime.temp_max, maritime.temp_min, 10, "clamped", 30)
    np.testing.assert_allclose(clamped, held, atol=1e-12)


def test_the_growth_of_a_mean_month_is_not_the_mean_growth_of_its_days(maritime):
    mean_c = mean_temperature(maritime.temp_max, maritime.temp_min)
    march = mean_c[mean_c.index.month == 3]
    truth = growth_potential(march).mean()
    plain, expected = (
        growth_potential(march.mean()),
        expected_growth_potential(march.mean(), day_spread_c=2.6),
    )
    assert abs(expected - truth) < abs(plain - truth) / 3


@given(near, st.floats(0, 3.5))
def test_the_expected_growth_is_the_average_over_the_spread(mean_c, spread_c):
    # Gauss-Hermite quadrature, numpy
    points, weights = np.polynomial.hermite_e.hermegauss(30)
    average = weights @ growth_potential(mean_c + spread_c * points) / weights.sum()
    assert expected_growth_potential(mean_c, day_spread_c=spread_c) == pytest.approx(average, abs=1e-9)


@given(near, st.floats(0.1, 4))
def test_the_expected_degree_days_are_the_average_over_the_spread(mean_c, spread_c):
    step_c = np.linspace(-8, 8, 20_001)
    weights = np.exp(-0.5 * step_c**2)
    average = weights @ degree_days_above(mean_c + spread_c * step_c, 6) / weights.sum()
    assert expected_degree_days(mean_c, 6, spread_c) == pytest.approx(average, abs=1e-5)


@given(st.lists(air, min_size=2, max_size=2))
def test_a_warmer_day_never_counts_fewer_degree_days(pair):
    colder, warmer = sorted(pair)
    assert 0 <= degree_days_above(colder, 0) <= degree_days_above(warmer, 0)
    assert expected_degree_days(colder, 0) <= expected_degree_days(warmer, 0) + 1e-12


@given(air, st.floats(0, 20), st.floats(0, 12))
def test_lifting_the_cold_night_to_the_base_never_counts_less(minimum_c, range_c, base_c):
    average = growing_degree_days(minimum_c + range_c, minimum_c, base_c)
    clamped = growing_degree_days(minimum_c + range_c, minimum_c, base_c, "clamped")
    assert 0 <= average <= clamped + 1e-12


def test_the_average_method_holds_the_mean_to_the_upper_limit():
    # McMaster & Wilhelm, 1997: the first method limits the mean, the second each temperature
    assert growing_degree_days(40, 20, 10, "average", 25) == 15
    assert growing_degree_days(40, 20, 10, "clamped", 25) == 12.5


@given(air)
def test_growth_is_a_share(mean_c):
    assert 0 <= expected_growth_potential(mean_c) <= 1
    assert 0 <= growth_potential(mean_c) <= 1


def test_without_a_spread_the_expectation_is_the_day_itself():
    assert expected_degree_days(10, 6, 0) == 4
    assert expected_growth_potential(12.0, day_spread_c=0) == growth_potential(12.0)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: growth_potential(100),
        lambda: growth_potential(10, 20, 0),
        lambda: growth_potential(float("nan")),
        lambda: growing_degree_days(5, 6, 0),
        lambda: growing_degree_days(6, 5, 0, "guessed"),
        lambda: growing_degree_days(6, 5, 10, "clamped", 9),
        lambda: expected_degree_days(5, 0, -1),
        lambda: mean_temperature(np.array([5.0, 6.0]), np.array([4.0, 7.0])),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
