"""Quantiles of Student's t, without a statistics library.

The distribution function is the regularised incomplete beta function, summed as a
continued fraction (modified Lentz); the quantile is found by bisection. For 1,000 degrees
of freedom and more the expansion about the normal quantile is exact to 1e-10.
"""

import math
from functools import lru_cache
from statistics import NormalDist

from growin.agronomy.impossible import ImpossibleValue, require_range

#: From here on the expansion is closer than the fraction is quick.
MANY_DEGREES = 1000
CLOSE_ENOUGH = 1e-15
TINY = 1e-300
MOST_TERMS = 10_000


@lru_cache(maxsize=4096)
def t_quantile(probability: float, degrees: float) -> float:
    """Value below which Student's t lies with a probability.

    Parameters
    ----------
    probability : between 0 and 1; 0.975 for a two-sided 95 %.
    degrees : at least 1, degrees of freedom.

    Raises ImpossibleValue outside these ranges.
    Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.7.1, 26.7.5 and
    26.5.8; tested against scipy to 1e-9.
    """
    require_range("degrees of freedom", degrees, 1)
    require_range("probability", probability, 0, 1)
    if probability in (0, 1):
        raise ImpossibleValue("probability", probability, "between 0 and 1")
    if degrees >= MANY_DEGREES:
        return _expanded(NormalDist().inv_cdf(probability), degrees)
    size = _bisected(abs(2 * probability - 1), degrees)
    return size if probability >= 0.5 else -size


def t_central_share(size: float, degrees: float) -> float:
    """Probability that Student's t lies within -size and size.

    Raises ImpossibleValue for a size below 0 or fewer than 1 degree of freedom.
    Source: Abramowitz & Stegun, 26.7.1 with 26.5.27.
    """
    require_range("size", size, 0)
    require_range("degrees of freedom", degrees, 1)
    whole = degrees + size**2
    return _incomplete_beta(size**2 / whole, degrees / whole, 0.5, degrees / 2)


def _bisected(central: float, degrees: float) -> float:
    """Size within which t lies with probability ``central``: doubled until beyond, then halved."""
    low, high = 0.0, 1.0
    while t_central_share(high, degrees) < central:
        low, high = high, high * 2
    while high - low > CLOSE_ENOUGH * high and low < (middle := (low + high) / 2) < high:
        low, high = (middle, high) if t_central_share(middle, degrees) < central else (low, middle)
    return (low + high) / 2


def _expanded(z: float, degrees: float) -> float:
    """Expansion of t about the normal quantile (Abramowitz & Stegun, 26.7.5)."""
    terms = (
        (z**3 + z) / 4,
        (5 * z**5 + 16 * z**3 + 3 * z) / 96,
        (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384,
        (79 * z**9 + 776 * z**7 + 1482 * z**5 - 1920 * z**3 - 945 * z) / 92160,
    )
    return z + sum(term / degrees**power for power, term in enumerate(terms, start=1))


def _incomplete_beta(x: float, complement: float, a: float, b: float) -> float:
    """Regularised incomplete beta I_x(a, b); ``complement`` is 1 - x, kept apart for precision."""
    if x == 0 or complement == 0:
        return float(x > 0)
    if x > (a + 1) / (a + b + 2):
        return 1 - _incomplete_beta(complement, x, b, a)
    front = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log(complement)
    return math.exp(front) / (a * _fraction(x, a, b))


def _fraction(x: float, a: float, b: float) -> float:
    """Continued fraction of the incomplete beta, from the front (modified Lentz)."""
    value, upper, lower = 1.0, 1.0, 0.0
    for term in range(1, MOST_TERMS):
        step = _numerator(term, x, a, b)
        lower = 1 / _apart_from_zero(1 + step * lower)
        upper = _apart_from_zero(1 + step / upper)
        value *= upper * lower
        if abs(upper * lower - 1) < CLOSE_ENOUGH:
            break
    return value


def _numerator(term: int, x: float, a: float, b: float) -> float:
    """Numerators of the fraction (Abramowitz & Stegun, 26.5.8)."""
    m = term // 2
    if term % 2:
        return -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
    return m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))


def _apart_from_zero(number: float) -> float:
    return number if abs(number) > TINY else TINY
