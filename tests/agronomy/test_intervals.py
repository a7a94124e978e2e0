"""How sure a handful of readings makes us, against scipy and statsmodels."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from statsmodels.stats.proportion import proportion_confint

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.intervals import (
    describe,
    mean_interval,
    mean_lower_bound,
    mean_upper_bound,
    more_readings_for_mean,
    more_readings_for_share,
    proportion_interval,
    proportion_lower_bound,
    proportion_upper_bound,
    readings_for_mean,
    sample_size,
)

confidence = st.floats(0.5, 0.999)
readings = st.lists(st.integers(0, 1000).map(lambda tenths: tenths / 10), min_size=2, max_size=30)
hits = st.integers(1, 400).flatmap(lambda count: st.tuples(st.integers(0, count), st.just(count)))


@given(readings, confidence)
def test_intervals_of_means_are_those_of_scipy(values, sure):
    spread = stats.tstd(values) / math.sqrt(len(values)) if len(set(values)) > 1 else 0
    mean = sum(values) / len(values)
    lower, upper = stats.t.interval(sure, len(values) - 1, mean, spread) if spread else (mean, mean)
    assert mean_interval(sure, values) == pytest.approx((lower, upper), rel=1e-8, abs=1e-8)


@given(hits, confidence)
def test_intervals_of_shares_are_those_of_statsmodels_and_scipy(hit, sure):
    ours = proportion_interval(*hit, sure)
    assert ours == pytest.approx(proportion_confint(*hit, alpha=1 - sure, method="wilson"), abs=1e-9)
    assert ours == pytest.approx(tuple(stats.binomtest(*hit).proportion_ci(sure, "wilson")), abs=1e-9)
    assert 0 <= ours.lower <= hit[0] / hit[1] + 1e-12
    assert hit[0] / hit[1] - 1e-12 <= ours.upper <= 1


@given(hits, st.floats(0.5, 0.999))
def test_one_sided_bounds_are_those_of_scipy(hit, sure):
    test = {
        side: stats.binomtest(*hit, alternative=side).proportion_ci(sure, "wilson")
        for side in ("greater", "less")
    }
    assert proportion_lower_bound(*hit, sure) == pytest.approx(test["greater"].low, abs=1e-9)
    assert proportion_upper_bound(*hit, sure) == pytest.approx(test["less"].high, abs=1e-9)


@given(readings)
def test_a_one_sided_bound_lies_inside_the_two_sided_one(values):
    both = mean_interval(0.95, values)
    assert both.lower <= mean_lower_bound(values, 0.95) + 1e-9
    assert mean_upper_bound(values, 0.95) <= both.upper + 1e-9


def test_five_sound_cores_of_five_prove_little():
    # trade note: five of five cores has a (two-sided 95 %) lower bound of 57 %
    assert proportion_interval(5, 5, 0.95).lower == pytest.approx(0.566, abs=0.0005)


@given(st.floats(0.1, 20), st.floats(0.5, 10), st.sampled_from([0.8, 0.9, 0.95]))
def test_the_fewest_readings_are_enough_and_one_fewer_is_not(spread, half_width, sure):
    def reached(count):
        lower, upper = stats.t.interval(sure, count - 1, 0, spread / math.sqrt(count))
        return (upper - lower) / 2 <= half_width * (1 + 1e-8)

    needed = readings_for_mean(spread, half_width, sure)
    assert reached(needed)
    assert needed == 2 or not reached(needed - 1) or spread == 0


def test_how_many_more_readings_settle_a_mean():
    values = [18.0, 22.0, 25.0]
    assert more_readings_for_mean(values, 2) == readings_for_mean(describe(values).standard_deviation, 2) - 3
    assert more_readings_for_mean([20.0, 20.0], 2) == 0


@given(hits, st.floats(0.5, 0.99))
def test_how_many_more_points_would_lift_the_bound(hit, least):
    more = more_readings_for_share(*hit, least)
    reached = proportion_lower_bound(*hit) >= least
    assert (more == 0) is reached
    if more:
        share, count = hit[0] / hit[1], hit[1] + more
        low = [
            share - least - stats.norm.ppf(0.95) * math.sqrt(least * (1 - least) / n)
            for n in (count, count - 1)
        ]
        assert low[0] >= -1e-9
        assert low[1] < 1e-9


def test_no_number_of_points_lifts_a_share_above_itself():
    assert more_readings_for_share(190, 200, 0.95) is None


def test_a_whole_number_of_readings_is_not_rounded_up_by_floating_point():
    assert sample_size(0.1, 0.3, 6) == (pytest.approx(4), 4)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: mean_interval(1.0, [1, 2]),
        lambda: mean_interval(0.95, [1]),
        lambda: mean_interval(0.95),
        lambda: mean_interval(0.95, mean=1, count=5),
        lambda: mean_interval(0.95, [1, 2], mean=1),
        lambda: mean_interval(0.95, mean=1, standard_deviation=1, count=2.5),
        lambda: proportion_interval(5, 4),
        lambda: proportion_interval(0, 0),
        lambda: proportion_interval(-1, 4),
        lambda: proportion_interval(1.5, 4),
        lambda: proportion_lower_bound(1, 4, 0.4),
        lambda: sample_size(1, 0, 2),
        lambda: more_readings_for_share(1, 2, 1.5),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
