"""Power of the decision rules, against scipy's binomial distribution."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.power import chance_none_over, chance_of_at_least, chance_of_cover, fewest_hits

chance = st.floats(0, 1)


@given(st.integers(1, 60), st.integers(0, 60), chance)
def test_a_count_rule_passes_as_often_as_scipy_says(of, wanted, one):
    wanted = min(wanted, of)
    assert chance_of_at_least(wanted, of, one) == pytest.approx(
        stats.binom.sf(wanted - 1, of, one), abs=1e-10
    )


@given(st.integers(1, 30), chance)
def test_none_over_is_every_one_within(of, over):
    assert chance_none_over(of, over) == pytest.approx((1 - over) ** of, abs=1e-12)


@given(st.lists(chance, min_size=2, max_size=2))
def test_a_better_green_never_passes_less_often(chances):
    worse, better = sorted(chances)
    assert chance_of_at_least(4, 5, worse) <= chance_of_at_least(4, 5, better) + 1e-12


def test_cover_asks_245_hits_of_250():
    # 10 frames of 25 points: 98 % is 245 hits, and its one-sided bound lies above 95 % (our judgement)
    assert fewest_hits(250, 0.98, 0.95, 0.9) == 245
    assert chance_of_cover(250, 0.98, 0.95, 0.9, 0.99) == pytest.approx(stats.binom.sf(244, 250, 0.99))
    assert chance_of_cover(250, 0.98, 0.95, 0.9, 0.93) < 0.001
    assert fewest_hits(5, 0.98, 0.95, 0.9) is None
    assert chance_of_cover(5, 0.98, 0.95, 0.9, 1.0) == 0


def test_cores_and_points_of_plainly_ready_and_unready_turf():
    # Default rules 4 of 5 cores and 8 of 10 points; chances of "plainly ready" and "unready" (our judgement)
    assert chance_of_at_least(4, 5, 0.98) > 0.99 > 0.05 > chance_of_at_least(4, 5, 0.30)
    assert chance_of_at_least(8, 10, 0.97) > 0.99
    assert chance_of_at_least(8, 10, 0.45) < 0.05


@pytest.mark.parametrize(
    "refused",
    [
        lambda: chance_of_at_least(6, 5, 0.5),
        lambda: chance_of_at_least(0, 0, 0.5),
        lambda: chance_of_at_least(1, 5, 1.5),
        lambda: chance_none_over(5, -0.1),
        lambda: fewest_hits(10, 2, 0.5, 0.9),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
