"""How often a decision rule passes a green of a given quality: the power of the criteria.

Each value of a reading passes by itself with the same chance; the rules count. All are exact.
"""

import math

from growin.agronomy.impossible import ImpossibleValue, require_range
from growin.agronomy.intervals import proportion_lower_bound


def chance_of_at_least(wanted: int, of: int, chance: float) -> float:
    """Chance that at least ``wanted`` of ``of`` values pass, 0 to 1: the power of a rule k of n.

    Parameters
    ----------
    wanted : 0 to ``of``; of : at least 1.
    chance : 0 to 1, that one value passes.

    Raises ImpossibleValue outside these ranges.
    Source: upper tail of the binomial distribution, any text on probability.
    """
    if of < 1 or not 0 <= wanted <= of:
        raise ImpossibleValue("number wanted", wanted, f"from 0 to {of}, the number taken")
    require_range("chance that one passes", chance, 0, 1)
    return min(1.0, math.fsum(_binomial(count, of, chance) for count in range(wanted, of + 1)))


def chance_none_over(of: int, chance_over: float) -> float:
    """Chance that none of ``of`` placings is over its limit, 0 to 1: the power of a largest-value rule.

    Raises ImpossibleValue for fewer than 1 placing or a chance outside 0 to 1.
    Source: product of independent chances, any text on probability.
    """
    return chance_of_at_least(of, of, 1 - chance_over)


def fewest_hits(points: int, share: float, bound: float, confidence: float) -> int | None:
    """Fewest hits whose share is at least ``share`` and whose one-sided lower bound reaches ``bound``.

    None when not even a hit at every point would do.

    Raises ImpossibleValue for shares outside 0 to 1, and as
    :func:`growin.agronomy.intervals.proportion_lower_bound`.
    Source: Newcombe, 1998, method 3, turned round by trying every count.
    """
    require_range("share wanted", share, 0, 1)
    require_range("bound wanted", bound, 0, 1)
    counts = range(math.ceil(share * points - 1e-9), points + 1)
    return next((hits for hits in counts if proportion_lower_bound(hits, points, confidence) >= bound), None)


def chance_of_cover(points: int, share: float, bound: float, confidence: float, true_cover: float) -> float:
    """Chance that a stand of ``true_cover`` passes an estimate with a bound, 0 to 1.

    Raises ImpossibleValue as :func:`fewest_hits` and :func:`chance_of_at_least`.
    Source: binomial tail from the fewest hits that pass.
    """
    wanted = fewest_hits(points, share, bound, confidence)
    return 0.0 if wanted is None else chance_of_at_least(wanted, points, true_cover)


def _binomial(count: int, of: int, chance: float) -> float:
    return math.comb(of, count) * chance**count * (1 - chance) ** (of - count)
