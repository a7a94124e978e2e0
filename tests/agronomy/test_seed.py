"""How much of a bag can grow."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.seed import pure_live_seed, seed_quantity

share = st.floats(10, 100)


@given(share, share, st.floats(0, 50), st.floats(0, 5000))
def test_the_seed_weighed_out_holds_the_live_seed_wanted(purity, germination, rate_g_m2, area_m2):
    lot, needed = (
        pure_live_seed(purity, germination),
        seed_quantity(rate_g_m2, purity, germination, area_m2),
    )
    assert 0 < lot.pure_live_percent <= min(purity, germination) * (1 + 1e-12)
    assert needed.seed_g_m2 * lot.pure_live_percent / 100 == pytest.approx(rate_g_m2)
    assert needed.seed_kg == pytest.approx(needed.seed_g_m2 * area_m2 / 1000)


def test_hard_seed_counts_as_alive():
    assert pure_live_seed(98, 92, 5) == pure_live_seed(98, 97)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: pure_live_seed(0, 90),
        lambda: pure_live_seed(101, 90),
        lambda: pure_live_seed(98, 0),
        lambda: pure_live_seed(98, 96, 5),
        lambda: seed_quantity(-1, 98, 90, 100),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
