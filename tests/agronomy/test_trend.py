"""Trends over the years, against scipy's linregress; and what is said of them."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as some
from scipy import stats

from growin.agronomy.trend import (
    AIMS,
    BETTER,
    DAYS_A_YEAR,
    STEADY,
    UNKNOWN,
    WORSE,
    Trend,
    along,
    in_sum,
    judge,
    sentence,
    trend,
)

FIRST = date(2024, 4, 1)


def points(*values: float, days: int = 60) -> list[tuple[date, float]]:
    return [(FIRST + timedelta(days=days * n), value) for n, value in enumerate(values)]


def going(per_year: float, half: float, latest: float = 90) -> Trend:
    return Trend(per_year, per_year - half, per_year + half, 12, 2.0, latest)


@given(some.lists(some.floats(0, 200), min_size=5, max_size=40))
def test_slope_and_interval_are_those_of_scipy(values):
    assume(np.ptp(values) > 1e-3)  # scipy has no error for a line without any scatter
    found = trend(points(*values))
    years = np.arange(len(values)) * 60 / DAYS_A_YEAR
    expected = stats.linregress(years, values)
    half = stats.t.ppf(0.95, len(values) - 2) * expected.stderr
    assert found.per_year == pytest.approx(expected.slope, abs=1e-6)
    assert (found.low, found.high) == pytest.approx(
        (expected.slope - half, expected.slope + half), rel=1e-6, abs=1e-5
    )


def test_a_line_without_scatter():
    """4 a year with no scatter has an interval of no width."""
    found = trend([(FIRST + timedelta(days=round(DAYS_A_YEAR * n)), 70 + 4 * n) for n in range(5)])
    assert (found.per_year, found.low, found.high) == pytest.approx((4, 4, 4), abs=0.02)
    assert found.latest == pytest.approx(86, abs=0.1)


@given(some.lists(some.floats(0, 200), min_size=5, max_size=12), some.integers(-30, 900))
def test_the_band_is_that_of_the_mean_response_in_matrices(values, day):
    """x₀ᵀ(XᵀX)⁻¹x₀ s² is the variance of the mean at x₀ (Draper & Smith, Applied Regression Analysis; from
    memory)."""
    assume(np.ptp(values) > 1e-3)
    (found,) = along(points(*values), [FIRST + timedelta(days=day)])
    design = np.column_stack([np.ones(len(values)), np.arange(len(values)) * 60 / DAYS_A_YEAR])
    best, *_ = np.linalg.lstsq(design, np.array(values))
    here = np.array([1, day / DAYS_A_YEAR])
    variance = np.sum((values - design @ best) ** 2) / (len(values) - 2)
    half = stats.t.ppf(0.95, len(values) - 2) * np.sqrt(
        variance * here @ np.linalg.inv(design.T @ design) @ here
    )
    assert (found.mean, found.high - found.mean) == pytest.approx((here @ best, half), rel=1e-6, abs=1e-5)
    assert found.mean - found.low == pytest.approx(found.high - found.mean, abs=1e-9)


def test_on_the_day_of_the_first_set_the_band_is_scipys_interval_of_the_intercept():
    values = [55, 54, 51, 50, 46, 45]
    (found,) = along(points(*values), [FIRST])
    expected = stats.linregress(np.arange(6) * 60 / DAYS_A_YEAR, values)
    half = stats.t.ppf(0.95, 4) * expected.intercept_stderr
    assert (found.mean, found.low, found.high) == pytest.approx(
        (expected.intercept, expected.intercept - half, expected.intercept + half)
    )


def test_where_no_trend_is_told_there_is_no_line():
    assert along(points(1, 2, 3), [FIRST]) == []


def test_three_sets_or_half_a_season_tell_nothing():
    assert trend(points(1, 2, 3)) is None
    assert trend(points(1, 2, 3, 4, 5, days=30)) is None
    assert trend(points(1, 2, 3, 4, days=60)) is not None


@pytest.mark.parametrize(
    ("measure", "found", "which"),
    [
        ("poa_share", going(-5, 2), BETTER),
        ("poa_share", going(5, 2), WORSE),
        ("poa_share", going(-1, 2), STEADY),
        ("infiltration", going(30, 10), BETTER),
        ("organic_matter", going(0.4, 0.1), WORSE),
        ("hardness", going(6, 2, latest=70), BETTER),
        ("hardness", going(6, 2, latest=90), STEADY),
        ("hardness", going(6, 2, latest=120), WORSE),
        ("hardness", going(-6, 2, latest=120), BETTER),
        ("poa_share", None, UNKNOWN),
        ("dip", going(1, 0.1), UNKNOWN),
    ],
)
def test_what_is_better_goes_by_the_measure(measure, found, which):
    assert judge(measure, found) == which


def test_it_is_said_in_a_plain_sentence():
    assert sentence("Annual meadow-grass (Poa)", "%", "poa_share", going(-5, 2, 48)) == (
        "Annual meadow-grass (Poa): better. It falls by 5 % a year (3 to 7 %), over 2 years and 12 sets; "
        "now about 48 %."
    )
    assert sentence("Hardness", "gravities", "hardness", going(1, 2)) == (
        "Hardness: no change can be told, over 2 years and 12 sets; now about 90 gravities."
    )
    assert sentence("Hardness", "gravities", "hardness", None) == (
        "Hardness: not known. It takes 4 sets over 180 days to tell anything of years."
    )


def test_the_bands_are_those_of_the_print():
    """Hardness 80 to 100 gravities with the 0.5 kg hammer; moisture 15 to 25 % in summer (STRI)."""
    assert (AIMS["hardness"].band, AIMS["moisture"].band) == ((80, 100), (15, 25))


def test_organic_matter_has_its_limit_by_depth():
    """Under 6 % at 0 to 20 mm, under 4 % at 20 to 40 mm (STRI 2010); nothing is printed for deeper."""
    ways = ("0 to 20 mm, 440 °C", "20 to 40 mm", "40 to 60 mm", "")
    assert [AIMS["organic_matter"].most(way) for way in ways] == [6, 4, None, None]


@pytest.mark.parametrize(
    ("judged", "said"),
    [
        (
            {"thatch_depth": BETTER, "infiltration": BETTER, "hardness": STEADY, "moisture": UNKNOWN},
            "The surface is getting better: less thatch_depth and more infiltration. Neither better nor "
            "worse: hardness.",
        ),
        (
            {"poa_share": BETTER, "moisture": WORSE},
            "The surface is getting better in some ways, less poa_share, and worse in others: moisture "
            "further from where it should be.",
        ),
        ({"green_speed": WORSE}, "The surface is getting worse: less green_speed."),
        ({"hardness": STEADY}, "The surface is neither better nor worse as far as can be told: hardness."),
        (
            {"hardness": UNKNOWN},
            "Whether the surface gets better is not known: it takes 4 sets over 180 days of one way of "
            "measuring.",
        ),
    ],
)
def test_all_that_is_followed_is_said_in_one_sum(judged, said):
    assert in_sum((measure, measure, which) for measure, which in judged.items()) == said
