"""How sure a handful of readings makes us: intervals for means and shares, and how many more.

Two-sided intervals leave half of the doubt on each side; a one-sided bound leaves all of
it on its own side. Normal quantiles come from the standard library, Student t from
:func:`t_quantile`.
"""

import math
from collections.abc import Sequence
from statistics import NormalDist, fmean, stdev
from typing import NamedTuple

from growin.agronomy.defaults import COMMON_PRACTICE, Default, table
from growin.agronomy.impossible import ImpossibleValue, require_above, require_range
from growin.agronomy.student import t_quantile

DEFAULTS = table(
    Default("interval.confidence", 0.95, "", "confidence of an interval", 0.5, 0.999, COMMON_PRACTICE),
)
CONFIDENCE = DEFAULTS["interval.confidence"].value
#: A sum like 2² comes out of floating point as 4.000000000000001 and is still 4 readings.
HAIR = 1e-9


class Interval(NamedTuple):
    """Lower and upper limit."""

    lower: float
    upper: float


class SampleSize(NamedTuple):
    """Readings needed, as the sum gives it and as whole readings."""

    samples: float
    samples_rounded_up: int


class Sample(NamedTuple):
    """What a set of readings says about itself."""

    mean: float
    standard_deviation: float
    count: int


def mean_interval(
    confidence: float = CONFIDENCE,
    values: Sequence[float] | None = None,
    mean: float | None = None,
    standard_deviation: float | None = None,
    count: int | None = None,
) -> Interval:
    """Interval for a mean, from readings or from their mean, spread and number.

    Mean -/+ Student t (two-sided, count - 1) x standard deviation / root count.

    Parameters
    ----------
    confidence : between 0 and 1.
    values : at least two readings; or instead of them
    mean, standard_deviation (at least 0, of the sample), count (at least 2).

    Raises ImpossibleValue outside these ranges, or when neither or both are given.
    Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.2.
    """
    _require_confidence(confidence)
    sample = _sample(values, mean, standard_deviation, count)
    half_width = t_quantile((1 + confidence) / 2, sample.count - 1) * _standard_error(sample)
    return Interval(sample.mean - half_width, sample.mean + half_width)


def mean_lower_bound(values: Sequence[float], confidence: float = CONFIDENCE) -> float:
    """One-sided lower bound of a mean: it lies above this with that confidence.

    Raises ImpossibleValue for fewer than two readings or a confidence outside 0 to 1.
    Source: NIST/SEMATECH e-Handbook, 1.3.5.2, with the one-sided t.
    """
    _require_confidence(confidence)
    sample = describe(values)
    return sample.mean - t_quantile(confidence, sample.count - 1) * _standard_error(sample)


def mean_upper_bound(values: Sequence[float], confidence: float = CONFIDENCE) -> float:
    """One-sided upper bound of a mean; see :func:`mean_lower_bound`."""
    return -mean_lower_bound([-value for value in values], confidence)


def proportion_interval(successes: int, count: int, confidence: float = CONFIDENCE) -> Interval:
    """Wilson score interval for a share, without continuity correction, held within 0 and 1.

    Parameters
    ----------
    successes : 0 to ``count``.
    count : at least 1.
    confidence : between 0 and 1.

    Raises ImpossibleValue outside these ranges.
    Source: Newcombe, 1998, Statistics in Medicine 17:857-872, method 3.
    """
    _require_confidence(confidence)
    return _wilson(successes, count, (1 + confidence) / 2)


def proportion_lower_bound(successes: int, count: int, confidence: float = CONFIDENCE) -> float:
    """One-sided Wilson bound: the share lies above this with that confidence.

    Raises ImpossibleValue for successes outside 0 to count, a count below 1 or a
    confidence outside 0.5 to 1.
    Source: Newcombe, 1998, method 3, with the one-sided normal quantile.
    """
    _require_one_sided(confidence)
    return _wilson(successes, count, confidence).lower


def proportion_upper_bound(successes: int, count: int, confidence: float = CONFIDENCE) -> float:
    """One-sided Wilson bound: the share lies below this; see :func:`proportion_lower_bound`."""
    _require_one_sided(confidence)
    return _wilson(successes, count, confidence).upper


def sample_size(standard_deviation: float, half_width: float, t_value: float) -> SampleSize:
    """Readings that bring a mean within a half-width, for a t value taken as given.

    (t x standard deviation / half-width)².

    Parameters
    ----------
    standard_deviation : at least 0.
    half_width : above 0, in the same unit.
    t_value : above 0.

    Raises ImpossibleValue outside these ranges.
    Source: Cochran, Sampling techniques.
    """
    require_range("standard deviation", standard_deviation, 0)
    require_above("half-width", half_width)
    require_above("t value", t_value)
    samples = (t_value * standard_deviation / half_width) ** 2
    return SampleSize(samples, math.ceil(samples - HAIR))


def readings_for_mean(standard_deviation: float, half_width: float, confidence: float = CONFIDENCE) -> int:
    """Fewest readings whose interval for the mean is within the half-width, at least 2.

    The t value belongs to the number itself, so the sum starts from the normal quantile,
    which is never too high, and counts up.

    Raises ImpossibleValue for a spread below 0, a half-width not above 0 or a confidence
    outside 0 to 1.
    Source: Cochran, Sampling techniques; NIST/SEMATECH e-Handbook, 1.3.5.2.
    """
    _require_confidence(confidence)
    z = NormalDist().inv_cdf((1 + confidence) / 2)
    needed = max(2, sample_size(standard_deviation, half_width, z).samples_rounded_up)
    while _half_width(standard_deviation, needed, confidence) > half_width * (1 + HAIR):
        needed += 1
    return needed


def more_readings_for_mean(values: Sequence[float], half_width: float, confidence: float = CONFIDENCE) -> int:
    """How many more readings would bring the mean within the half-width, if they spread alike.

    Raises ImpossibleValue for fewer than two readings, and as :func:`readings_for_mean`.
    """
    sample = describe(values)
    return max(0, readings_for_mean(sample.standard_deviation, half_width, confidence) - sample.count)


def more_readings_for_share(
    successes: int, count: int, least_share: float, confidence: float = CONFIDENCE, most: int = 100_000
) -> int | None:
    """How many more readings would lift the lower bound to a share, if they turn out alike.

    Parameters
    ----------
    successes, count : as read so far.
    least_share : 0 to 1, what the one-sided bound has to reach.
    most : give up above this many readings.

    Returns
    -------
    0 when the bound is there already; None when no number would do, because the share
    itself is not above ``least_share`` or ``most`` is passed.

    Raises ImpossibleValue as :func:`proportion_lower_bound`, and for a share outside 0 to 1.
    """
    require_range("least share", least_share, 0, 1)
    if proportion_lower_bound(successes, count, confidence) >= least_share:
        return 0
    share, z = successes / count, NormalDist().inv_cdf(confidence)
    if share <= least_share:
        return None
    needed = math.ceil(z**2 * least_share * (1 - least_share) / (share - least_share) ** 2 - HAIR)
    return needed - count if needed <= most else None


def describe(values: Sequence[float]) -> Sample:
    """Mean, sample standard deviation and number of at least two readings.

    Raises ImpossibleValue for fewer than two readings or one that is no number.
    """
    if len(values) < 2:
        raise ImpossibleValue("number of readings", len(values), "at least 2")
    require_range("reading", values)
    return Sample(fmean(values), stdev(values), len(values))


def _sample(
    values: Sequence[float] | None, mean: float | None, standard_deviation: float | None, count: int | None
) -> Sample:
    summary = mean, standard_deviation, count
    if values is not None:
        if summary != (None, None, None):
            raise ImpossibleValue("input", "readings and their summary", "one of the two")
        return describe(values)
    if None in summary:
        raise ImpossibleValue("input", "incomplete", "the readings, or mean, standard deviation and count")
    require_range("mean", mean)
    require_range("standard deviation", standard_deviation, 0)
    _require_whole("number of readings", count, 2)
    return Sample(*summary)


def _wilson(successes: int, count: int, quantile_at: float) -> Interval:
    _require_whole("number of readings", count, 1)
    _require_whole("number of hits", successes, 0)
    require_range("number of hits", successes, 0, count)
    z, share = NormalDist().inv_cdf(quantile_at), successes / count
    centre = share + z**2 / (2 * count)
    half = z * math.sqrt(share * (1 - share) / count + z**2 / (4 * count**2))
    lower, upper = ((centre + side) / (1 + z**2 / count) for side in (-half, half))
    return Interval(max(0.0, lower) if successes else 0.0, min(1.0, upper) if successes < count else 1.0)


def _standard_error(sample: Sample) -> float:
    return sample.standard_deviation / math.sqrt(sample.count)


def _half_width(standard_deviation: float, count: int, confidence: float) -> float:
    return t_quantile((1 + confidence) / 2, count - 1) * standard_deviation / math.sqrt(count)


def _require_confidence(confidence: float) -> None:
    require_range("confidence", confidence, 0, 1)
    if confidence in (0, 1):
        raise ImpossibleValue("confidence", confidence, "between 0 and 1, such as 0.95")


def _require_one_sided(confidence: float) -> None:
    _require_confidence(confidence)
    require_range("confidence of a one-sided bound", confidence, 0.5, 1)


def _require_whole(what: str, number: float, least: int) -> None:
    require_range(what, number, least)
    if number != int(number):
        raise ImpossibleValue(what, number, "a whole number")
