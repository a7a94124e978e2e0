"""Readings against drawn greens, held against reference distributions."""

from datetime import date

import numpy as np
import pytest
from scipy import stats

from growin.agronomy.forecast.curves import mean_depth_mm, share_passing
from growin.agronomy.forecast.greens_drawn import DrawnGreens
from growin.agronomy.forecast.sighting import Sighting
from growin.agronomy.forecast.weighing import keep, log_likelihood, softened_weights
from tests.agronomy.forecast.asked import SETTINGS

ON = date(2026, 3, 3)
PLAIN = SETTINGS | {
    "forecast.reading.stray": 0.0,
    "forecast.curve.hand_pull.alike": 0.0,
    "forecast.reading.repeats": 0.0,
}


def greens(ready, steepness=4.0) -> DrawnGreens:
    ready = np.array([ready], dtype=float)
    return DrawnGreens(
        ready, {one: np.full(ready.shape[1], steepness) for one in ("hand_pull", "rooting_depth")}
    )


def test_ten_alike_and_honest_points_are_a_binomial():
    """scipy.stats.binom, up to the factor that is the same for every green."""
    some = greens([500, 700, 900, 1300])
    seen = [Sighting("hand_pull", 0, ON, 600, 7, 10)]
    share = share_passing("hand_pull", np.log(600 / some.ready[0]), some.steepness["hand_pull"], 0.9)
    ours, scipys = log_likelihood(some, seen, 50, PLAIN), stats.binom.logpmf(7, 10, share)
    np.testing.assert_allclose(ours - ours[0], scipys - scipys[0], rtol=1e-9)


def test_depths_are_a_student_t_on_their_logarithm():
    """scipy.stats.t with four degrees of freedom."""
    some = greens([500, 700, 900, 1300], steepness=1.1)
    seen = [Sighting("rooting_depth", 0, ON, 600, 0, 5, 28.4)]
    expected = mean_depth_mm(np.log(600 / some.ready[0]), some.steepness["rooting_depth"], 50 * 1.25)
    scale = (0.15**2 + 0.25**2 / 5) ** 0.5
    ours = log_likelihood(some, seen, 50, SETTINGS)
    scipys = stats.t.logpdf(np.log(28.4), 4, np.log(expected), scale)
    np.testing.assert_allclose(ours - ours[0], scipys - scipys[0], rtol=1e-9)


def test_a_hazard_is_a_weibull_and_a_share_a_logistic():
    """scipy.stats.weibull_min and scipy.stats.logistic."""
    way, four = np.log(np.array([0.2, 0.5, 1.0, 1.4])), np.full(4, 4.0)
    weibull = stats.weibull_min(4, scale=(-np.log(0.05)) ** -0.25)
    np.testing.assert_allclose(share_passing("hole", way, four, 0.95), weibull.cdf(np.exp(way)))
    logistic = stats.logistic(-np.log(9) / 4, 1 / 4)
    np.testing.assert_allclose(share_passing("hand_pull", way, four, 0.9), logistic.cdf(way))


def test_places_that_are_alike_and_sets_that_repeat_count_for_less():
    some, seen = greens([500, 1300]), Sighting("hand_pull", 0, ON, 600, 7, 10)

    def tells(sightings, **changed):
        settings = PLAIN | {f"forecast.{key}": value for key, value in changed.items()}
        likelihood = log_likelihood(some, sightings, 50, settings)
        return likelihood[0] - likelihood[1]

    once = tells([seen])
    assert tells([seen], **{"curve.hand_pull.alike": 1.0}) == pytest.approx(once / 10)
    assert tells([seen, seen], **{"reading.repeats": 1.0}) == pytest.approx(once)
    assert tells([seen, seen]) == pytest.approx(2 * once)


def test_a_reading_at_the_far_end_of_the_scale_is_never_decisive():
    some = greens([500, 5e6])
    seen = [Sighting("hand_pull", 0, ON, 600, 0, 10)]
    assert np.isfinite(log_likelihood(some, seen, 50, SETTINGS)).all()


def test_weights_are_softened_until_enough_draws_carry_them():
    likelihood = -0.5 * (np.linspace(-3, 3, 1000) / 0.01) ** 2
    weights = softened_weights(likelihood, 60)
    assert weights.sum() == pytest.approx(1)
    assert 1 / (weights**2).sum() == pytest.approx(60, rel=0.01)


def test_greens_are_kept_in_proportion_to_their_weights():
    some = greens(np.arange(1, 101))
    kept = keep(some, np.where(np.arange(100) < 50, 3.0, 1.0) / 200, 400)
    assert (kept.ready[0] <= 50).sum() == 300
    assert (np.diff(kept.ready[0]) >= 0).all()
