"""What a set is held to while it is being taken, as plain numbers.

Out on the green there may be no line to the site, so whoever takes the set works out interval, rule
and readings still wanted on the phone. Every figure needed for that is made here; what the phone makes
of them is held in tests to :mod:`growin.agronomy.intervals` and :mod:`growin.agronomy.rules`.
"""

from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from statistics import NormalDist

from growin.agronomy.rules import (
    MET,
    NOT_MET,
    BoundRule,
    CountRule,
    LargestRule,
    RangeRule,
    ShownRule,
    YesRule,
)
from growin.agronomy.student import t_quantile

#: Up to here every number of readings has its quantile; beyond, the line in 1/(n - 1) between
#: neighbours is closer than 0.0001.
EACH_UP_TO = 60
BEYOND = (80, 120, 200, 500)


@lru_cache(maxsize=64)
def quantiles(confidence: float) -> dict:
    """Student t for a two-sided interval by the number of readings, and the normal quantile.

    ``t`` is [[readings, quantile], …] from 2 readings on, ``z`` what it comes to for very many.

    Raises ImpossibleValue for a confidence of 0 or 1 or outside.
    """
    share = (1 + confidence) / 2
    counts = (*range(2, EACH_UP_TO + 1), *BEYOND)
    t = [[count, round(t_quantile(share, count - 1), 9)] for count in counts]
    return {"t": t, "z": NormalDist().inv_cdf(share)}


def _count(rule: CountRule) -> dict:
    return {"rule": "count", "wanted": rule.wanted, "at_least": rule.at_least}


def _largest(rule: LargestRule) -> dict:
    return {"rule": "largest", "limit": rule.limit}


def _bound(rule: BoundRule) -> dict:
    z = NormalDist().inv_cdf(rule.confidence)
    least = {"share": rule.share_percent, "lower": rule.lower_percent}
    return {"rule": "bound", **least, "points": rule.points, "z": z}


def _every(rule: YesRule) -> dict:
    return {"rule": "every", "wanted": rule.wanted}


def _range(rule: RangeRule) -> dict:
    return {"rule": "range", "low": rule.low, "high": rule.high, "confidence": rule.confidence}


_TERMS: Mapping[type, Callable] = {
    CountRule: _count,
    LargestRule: _largest,
    BoundRule: _bound,
    YesRule: _every,
    RangeRule: _range,
    ShownRule: lambda rule: {"rule": "shown"},
}


def terms_of(rule) -> dict:
    """A decision rule as plain numbers: its name, how many it takes (``of``), its places and limits."""
    places = getattr(rule, "places", "")
    return {"of": rule.count, "places": places, **_TERMS[type(rule)](rule)}


_PASSES: Mapping[type, Callable] = {
    CountRule: lambda rule, value: rule.passes(value),
    LargestRule: lambda rule, value: value <= rule.limit,
    BoundRule: lambda rule, value: 100 * value["hits"] >= rule.share_percent * value["points"],
    YesRule: lambda rule, value: bool(value) is rule.wanted,
    RangeRule: lambda rule, value: (
        (rule.low is None or value >= rule.low) and (rule.high is None or value <= rule.high)
    ),
}


def state_of_value(rules: Sequence, value) -> str:
    """Met or not met by one place for itself; empty where no rule looks at single places."""
    looked = [_PASSES[type(rule)](rule, value) for rule in rules if type(rule) in _PASSES]
    return (MET if all(looked) else NOT_MET) if looked else ""
