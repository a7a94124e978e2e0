"""Monthly normals become a smooth year that keeps every month's mean."""

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from vega_datasets import data

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.normals import daily_normals, monthly_means

CENTRAL_ENGLAND_C = [4.4, 4.6, 6.5, 8.9, 11.9, 14.8, 16.9, 16.6, 14.1, 10.6, 7.1, 4.6]  # from memory
twelve = st.lists(st.floats(-30, 40), min_size=12, max_size=12)


@given(twelve, st.booleans())
def test_each_month_keeps_its_mean(monthly_c, leap):
    daily = daily_normals(monthly_c, leap)
    assert len(daily) == 365 + leap
    np.testing.assert_allclose(monthly_means(daily), monthly_c, atol=1e-8)


def test_months_are_counted_by_the_almanac():
    days = pd.Series(daily_normals(CENTRAL_ENGLAND_C), pd.date_range("2025-01-01", "2025-12-31"))
    np.testing.assert_allclose(days.groupby(days.index.month).mean(), CENTRAL_ENGLAND_C, atol=1e-9)


def test_a_year_of_one_temperature_is_flat():
    np.testing.assert_allclose(daily_normals([9.5] * 12), 9.5, atol=1e-9)


def test_the_year_has_no_steps_and_closes_on_itself():
    daily = daily_normals(CENTRAL_ENGLAND_C)
    assert np.abs(np.diff(np.append(daily, daily[0]))).max() < 0.12
    assert daily.argmin() in (*range(45), *range(350, 365))
    assert daily.argmax() in range(195, 215)


def test_it_is_nearer_to_a_real_record_than_steps_of_months():
    days = data.seattle_weather().set_index("date").loc["2013":"2015", ["temp_max", "temp_min"]].mean(axis=1)
    by_day = days.groupby(days.index.day_of_year).mean()
    monthly = days.groupby(days.index.month).mean()
    steps = monthly.loc[pd.date_range("2025-01-01", "2025-12-31").month].to_numpy()
    smooth = daily_normals(monthly.tolist())
    assert ((smooth - by_day) ** 2).mean() < ((steps - by_day) ** 2).mean()


@pytest.mark.parametrize(
    "refused",
    [lambda: daily_normals([10] * 11), lambda: daily_normals([100] * 12), lambda: monthly_means([1])],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
