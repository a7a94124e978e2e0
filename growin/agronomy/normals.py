"""Monthly normals to daily ones: the smoothest year whose months have exactly these means."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from growin.agronomy.growth import COLDEST_C, HOTTEST_C
from growin.agronomy.impossible import ImpossibleValue, require_range

MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def daily_normals(monthly_c: Sequence[float], leap: bool = False) -> np.ndarray:
    """Normal mean temperature of each day of a year, °C, from twelve monthly means.

    Of all years that close on themselves and whose months have these means, the one with
    the least curvature (least sum of squared second differences). So a month's mean of
    the result is the mean that was given.

    Parameters
    ----------
    monthly_c : twelve values, January first, -90 to 60.
    leap : whether February has 29 days.

    Returns
    -------
    array of 365 (leap: 366) values; index 0 is 1 January.

    Raises ImpossibleValue for another count or a value out of range.
    Source: mean-preserving interpolation by constrained least squares (our judgement).
    """
    if len(monthly_c) != 12:
        raise ImpossibleValue("number of monthly normals", len(monthly_c), "12, January first")
    require_range("monthly normal, °C", monthly_c, COLDEST_C, HOTTEST_C)
    return _smoothest(leap) @ np.asarray(monthly_c, dtype=float)


def monthly_means(daily_c: Sequence[float]) -> np.ndarray:
    """Mean of each month of a year of 365 or 366 daily values; twelve values, January first.

    Raises ImpossibleValue for another number of days.
    """
    if len(daily_c) not in (365, 366):
        raise ImpossibleValue("days of the year", len(daily_c), "365 or 366")
    return _averages(len(daily_c) == 366) @ np.asarray(daily_c, dtype=float)


def _averages(leap: bool) -> np.ndarray:
    """Twelve rows that take the mean of each month."""
    lengths = np.array(MONTH_DAYS) + (np.arange(12) == 1) * leap
    month_of_day = np.repeat(np.arange(12), lengths)
    return (month_of_day == np.arange(12)[:, None]) / lengths[:, None]


@lru_cache(maxsize=2)
def _smoothest(leap: bool) -> np.ndarray:
    """The matrix that turns twelve means into days: least curvature under twelve constraints."""
    averages = _averages(leap)
    days = averages.shape[1]
    curve = np.roll(np.eye(days), 1, axis=1) - 2 * np.eye(days) + np.roll(np.eye(days), -1, axis=1)
    conditions = np.block([[curve.T @ curve, averages.T], [averages, np.zeros((12, 12))]])
    wanted = np.vstack([np.zeros((days, 12)), np.eye(12)])
    return np.linalg.solve(conditions, wanted)[:days]
