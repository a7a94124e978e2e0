"""Our own quantiles of Student's t against scipy's."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.student import t_central_share, t_quantile


@given(st.floats(0.001, 0.999), st.integers(1, 20_000))
def test_quantiles_are_those_of_scipy(probability, degrees):
    assert t_quantile(probability, degrees) == pytest.approx(
        stats.t.ppf(probability, degrees), rel=1e-9, abs=1e-9
    )


@pytest.mark.parametrize(
    ("probability", "degrees", "printed"),
    [(0.975, 2, 4.303), (0.975, 17, 2.110), (0.975, 100, 1.984), (0.95, 5, 2.015), (0.9, 1, 3.078)],
)
def test_quantiles_are_those_of_the_printed_table(probability, degrees, printed):
    # NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, printed to 0.001
    assert t_quantile(probability, degrees) == pytest.approx(printed, abs=0.0005)


@given(st.floats(0, 50), st.integers(1, 500))
def test_shares_are_those_of_scipy(size, degrees):
    expected = stats.t.cdf(size, degrees) - stats.t.cdf(-size, degrees)
    assert t_central_share(size, degrees) == pytest.approx(expected, abs=1e-12)


@given(st.floats(0.01, 0.99), st.integers(1, 100))
def test_the_two_tails_mirror_each_other(probability, degrees):
    assert t_quantile(probability, degrees) == pytest.approx(
        -t_quantile(1 - probability, degrees), rel=1e-9, abs=1e-9
    )


@pytest.mark.parametrize("bad", [(0, 5), (1, 5), (1.2, 5), (0.5, 0)])
def test_the_impossible_is_refused(bad):
    with pytest.raises(ImpossibleValue):
        t_quantile(*bad)
