"""What sets the pace of grass: growth potential and degree days, the stuff that clocks are made of.

Nomenclature: temperatures in °C, degree days in °C·days, growth potential from 0 to 1 a
day (its sum is counted in growth days). Every function takes a number or a series.

No clock is linear, so the growth of a mean day is not the mean of its days' growth.
On an estimated day take :func:`expected_growth_potential` or
:func:`expected_degree_days`, never the plain function of the mean.
"""

import math

import numpy as np

from growin.agronomy.defaults import OUR_JUDGEMENT, Default, table
from growin.agronomy.impossible import ImpossibleValue, require_above, require_range

DEFAULTS = table(
    Default(
        "clock.day_spread_c", 3.0, "°C more or less", "spread of days about their normal", 0, 8, OUR_JUDGEMENT
    ),
    Default("clock.factor", 1.0, "", "the club's own pace on a clock", 0.7, 1.4, OUR_JUDGEMENT),
)
DAY_SPREAD_C = DEFAULTS["clock.day_spread_c"].value

# Gelernter & Stowell, 2005, Golf Course Management: the grass of the function's plain call is cool-season.
COOL_OPTIMUM_C, COOL_SPREAD_C = 20.0, 5.5
WARM_OPTIMUM_C, WARM_SPREAD_C = 31.0, 7.0
ROOT_BASE_C = 0.0  # warmth for roots of turf counts above freezing point (our judgement)
LEAF_BASE_C = 6.0  # leaf growth in a cool spring (from memory: British print)

#: No air on earth has been outside this, °C (World Meteorological Organization: -89.2 and 56.7).
COLDEST_C, HOTTEST_C = -90.0, 60.0
AVERAGE, CLAMPED = "average", "clamped"

Series = float | np.ndarray


def mean_temperature(maximum_c: Series, minimum_c: Series) -> Series:
    """Mean of the day as half the sum of its extremes, °C.

    Raises ImpossibleValue for air outside -90 to 60 °C or a maximum under the minimum.
    Source: McMaster & Wilhelm, 1997; FAO Irrigation and Drainage Paper 56, Eq. 9.
    """
    require_extremes(maximum_c, minimum_c)
    return (maximum_c + minimum_c) / 2


def growth_potential(
    mean_temperature_c: Series, optimum_c: float = COOL_OPTIMUM_C, spread_c: float = COOL_SPREAD_C
) -> Series:
    """Growth of a day as a share of the best day, 0 to 1; falls again above the optimum.

    exp(-0.5 ((mean - optimum) / spread)²); cool-season grass 20 and 5.5 °C, warm-season 31 and 7.

    Parameters
    ----------
    mean_temperature_c : -90 to 60, of air over a day (or a longer spell).
    optimum_c : -90 to 60.
    spread_c : above 0.

    Raises ImpossibleValue outside these ranges.
    Source: Gelernter & Stowell, 2005.
    """
    _require_air("mean temperature, °C", mean_temperature_c)
    _require_air("optimum, °C", optimum_c)
    require_above("spread, °C", spread_c)
    return np.exp(-0.5 * ((mean_temperature_c - optimum_c) / spread_c) ** 2)


def growing_degree_days(
    maximum_c: Series, minimum_c: Series, base_c: float, method: str = AVERAGE, upper_c: float | None = None
) -> Series:
    """Degree days of a day above a base, °C·days, never below zero.

    ``average`` takes the mean of the extremes, held to the upper limit if one is given,
    less the base. ``clamped`` first holds each extreme between base and upper limit.

    Parameters
    ----------
    maximum_c, minimum_c : -90 to 60, maximum at least the minimum.
    base_c : -90 to 60.
    method : "average" or "clamped".
    upper_c : above the base.

    Raises ImpossibleValue outside these ranges and for another method.
    Source: McMaster & Wilhelm, 1997.
    """
    _require_air("base, °C", base_c)
    ceiling_c = _ceiling(base_c, upper_c)
    mean_c = mean_temperature(maximum_c, minimum_c)
    if method == AVERAGE:
        held_c = mean_c if upper_c is None else np.minimum(mean_c, ceiling_c)
        return np.maximum(held_c - base_c, 0.0)
    if method == CLAMPED:
        held = (np.clip(one, base_c, ceiling_c) for one in (maximum_c, minimum_c))
        return sum(held) / 2 - base_c
    raise ImpossibleValue("method of degree days", method, f"{AVERAGE} or {CLAMPED}")


def degree_days_above(mean_temperature_c: Series, base_c: float = ROOT_BASE_C) -> Series:
    """Degree days of a mean temperature above a base, °C·days, never below zero.

    The average method for days of which only the mean is known.

    Raises ImpossibleValue for temperatures outside -90 to 60 °C.
    Source: McMaster & Wilhelm, 1997.
    """
    _require_air("mean temperature, °C", mean_temperature_c)
    _require_air("base, °C", base_c)
    return np.maximum(np.subtract(mean_temperature_c, base_c), 0.0)


def expected_growth_potential(
    mean_temperature_c: Series,
    optimum_c: float = COOL_OPTIMUM_C,
    spread_c: float = COOL_SPREAD_C,
    day_spread_c: float = DAY_SPREAD_C,
) -> Series:
    """Growth potential to expect of a day of which only the normal mean is known, 0 to 1.

    The expectation over days spread normally about the mean with a standard deviation of
    ``day_spread_c`` (at least 0), in closed form: a bell of spread sqrt(s² + d²), lowered
    by s / sqrt(s² + d²).

    Raises ImpossibleValue as :func:`growth_potential`, and for a day spread below 0.
    Source: product of two Gaussians, any text on probability; checked by quadrature.
    """
    require_range("spread of days, °C", day_spread_c, 0)
    require_above("spread, °C", spread_c)
    wide_c = math.hypot(spread_c, day_spread_c)
    return growth_potential(mean_temperature_c, optimum_c, wide_c) * (spread_c / wide_c)


def expected_degree_days(
    mean_temperature_c: Series, base_c: float = ROOT_BASE_C, day_spread_c: float = DAY_SPREAD_C
) -> Series:
    """Degree days to expect of a day of which only the normal mean is known, °C·days.

    The expectation over days spread normally about the mean: (m - b) Phi(z) + d phi(z)
    with z = (m - b) / d. Warm days of a cold spell count, cold days never subtract.

    Raises ImpossibleValue for temperatures outside -90 to 60 °C or a day spread below 0.
    Source: mean of a rectified normal variable, any text on probability.
    """
    require_range("spread of days, °C", day_spread_c, 0)
    plain = degree_days_above(mean_temperature_c, base_c)
    if day_spread_c == 0:
        return plain
    above = np.subtract(mean_temperature_c, base_c)
    z = above / day_spread_c
    density = np.exp(-0.5 * z**2) / math.sqrt(2 * math.pi)
    return np.maximum(above * _normal_share(z) + day_spread_c * density, plain)


def require_extremes(maximum_c: Series, minimum_c: Series) -> None:
    """Refuse air outside -90 to 60 °C and a maximum under the minimum, with the value."""
    _require_air("maximum temperature, °C", maximum_c)
    _require_air("minimum temperature, °C", minimum_c)
    if np.less(maximum_c, minimum_c).any():
        range_c = np.atleast_1d(np.subtract(maximum_c, minimum_c))
        raise ImpossibleValue(
            "maximum less minimum temperature, °C", range_c[range_c < 0][0].item(), "at least 0"
        )


def _require_air(what: str, temperature_c: Series) -> None:
    require_range(what, temperature_c, COLDEST_C, HOTTEST_C)


def _ceiling(base_c: float, upper_c: float | None) -> float:
    if upper_c is None:
        return HOTTEST_C
    require_range("upper limit, °C", upper_c, base_c, HOTTEST_C)
    return upper_c


def _normal_share(z: Series) -> np.ndarray:
    """Share of a normal variable below ``z``, for a number or a series."""
    flat = np.atleast_1d(np.asarray(z, dtype=float)).ravel() / math.sqrt(2)
    share = 0.5 * (1 + np.fromiter(map(math.erf, flat), dtype=float, count=flat.size))
    return share.reshape(np.shape(z))
