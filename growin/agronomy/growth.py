"""What sets the pace of grass: growth potential, degree days and the clocks made of them.

Nomenclature: temperatures in °C, degree days in °C·days, growth potential from 0 to 1 a
day (its sum is counted in growth days). Every function takes a number or a series.

No clock is linear, so the growth of a mean day is not the mean of its days' growth.
On an estimated day take :func:`expected_increments`, never :func:`increments`.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from growin.agronomy.defaults import FROM_MEMORY, OUR_JUDGEMENT, PUBLISHED, Default, table
from growin.agronomy.impossible import ImpossibleValue, require_above, require_range

_PACE = "Gelernter & Stowell, 2005, Golf Course Management"
_DAYS = "McMaster & Wilhelm, 1997, Agricultural and Forest Meteorology 87:291-300"

DEFAULTS = table(
    Default("clock.cool_optimum_c", 20.0, "°C", "optimum of cool-season grass", 14, 24, PUBLISHED, _PACE),
    Default("clock.cool_spread_c", 5.5, "°C", "spread of cool-season grass", 3, 9, PUBLISHED, _PACE),
    Default("clock.warm_optimum_c", 31.0, "°C", "optimum of warm-season grass", 25, 36, PUBLISHED, _PACE),
    Default("clock.warm_spread_c", 7.0, "°C", "spread of warm-season grass", 4, 11, PUBLISHED, _PACE),
    Default("clock.leaf_base_c", 6.0, "°C", "base of leaf growth in a cool spring", 0, 10, FROM_MEMORY),
    Default("clock.root_base_c", 0.0, "°C", "base of the rooting of turf", -2, 6, OUR_JUDGEMENT),
    Default("clock.day_spread_c", 3.0, "°C", "spread of days about their normal", 0, 8, OUR_JUDGEMENT),
    Default("clock.factor", 1.0, "", "the club's own pace on a clock", 0.7, 1.4, OUR_JUDGEMENT),
)
COOL_OPTIMUM_C = DEFAULTS["clock.cool_optimum_c"].value
COOL_SPREAD_C = DEFAULTS["clock.cool_spread_c"].value
WARM_OPTIMUM_C = DEFAULTS["clock.warm_optimum_c"].value
WARM_SPREAD_C = DEFAULTS["clock.warm_spread_c"].value
LEAF_BASE_C = DEFAULTS["clock.leaf_base_c"].value
ROOT_BASE_C = DEFAULTS["clock.root_base_c"].value
DAY_SPREAD_C = DEFAULTS["clock.day_spread_c"].value
FACTOR_RANGE = DEFAULTS["clock.factor"].low, DEFAULTS["clock.factor"].high

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
        return np.maximum(np.minimum(mean_c, ceiling_c) - base_c, 0.0)
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


@dataclass(frozen=True)
class Clock:
    """One way to count growth: ``of_day`` for a known mean, ``expected`` for an estimated one.

    ``settings`` names the keys of :data:`DEFAULTS` that shape it, in the order in which
    both functions take them after the mean temperature.
    """

    key: str
    words: str
    unit: str
    of_day: Callable[..., Series]
    expected: Callable[..., Series]
    settings: tuple[str, ...]


ROOTING, LEAF, COOL_GROWTH, WARM_GROWTH = "rooting", "leaf", "cool_growth", "warm_growth"
CLOCKS: dict[str, Clock] = {
    clock.key: clock
    for clock in (
        Clock(
            ROOTING,
            "warmth above 0 °C",
            "°C·days",
            degree_days_above,
            expected_degree_days,
            ("clock.root_base_c",),
        ),
        Clock(
            LEAF,
            "degree days above 6 °C",
            "°C·days",
            degree_days_above,
            expected_degree_days,
            ("clock.leaf_base_c",),
        ),
        Clock(
            COOL_GROWTH,
            "growth potential, cool-season grass",
            "growth days",
            growth_potential,
            expected_growth_potential,
            ("clock.cool_optimum_c", "clock.cool_spread_c"),
        ),
        Clock(
            WARM_GROWTH,
            "growth potential, warm-season grass",
            "growth days",
            growth_potential,
            expected_growth_potential,
            ("clock.warm_optimum_c", "clock.warm_spread_c"),
        ),
    )
}


def increments(
    clock: str, mean_temperature_c: Series, settings: dict[str, float] | None = None, factor: float = 1.0
) -> Series:
    """What measured days add to a clock, in the clock's unit.

    Parameters
    ----------
    clock : key of :data:`CLOCKS`.
    mean_temperature_c : -90 to 60.
    settings : values by key of :data:`DEFAULTS`; what is missing keeps its default.
    factor : 0.7 to 1.4, the club's own pace.

    Raises ImpossibleValue for an unknown clock, or outside these ranges.
    """
    named = clock_named(clock)
    require_range("pace of the club", factor, *FACTOR_RANGE)
    return named.of_day(mean_temperature_c, *_settings_of(named, settings)) * factor


def expected_increments(
    clock: str,
    mean_temperature_c: Series,
    settings: dict[str, float] | None = None,
    factor: float = 1.0,
    day_spread_c: float = DAY_SPREAD_C,
) -> Series:
    """What estimated days add to a clock: the expectation over days spread about their normal.

    Parameters as :func:`increments`; ``day_spread_c`` at least 0, the standard deviation of
    a day's mean about its normal.

    Raises ImpossibleValue for an unknown clock, or outside these ranges.
    """
    named = clock_named(clock)
    require_range("pace of the club", factor, *FACTOR_RANGE)
    shape = _settings_of(named, settings)
    return named.expected(mean_temperature_c, *shape, day_spread_c=day_spread_c) * factor


def clock_named(key: str) -> Clock:
    """The clock of that key.

    Raises ImpossibleValue naming the clocks there are.
    """
    if key not in CLOCKS:
        raise ImpossibleValue("clock", key, f"one of {', '.join(CLOCKS)}")
    return CLOCKS[key]


def require_extremes(maximum_c: Series, minimum_c: Series) -> None:
    """Refuse air outside -90 to 60 °C and a maximum under the minimum, with the value."""
    _require_air("maximum temperature, °C", maximum_c)
    _require_air("minimum temperature, °C", minimum_c)
    range_c = np.atleast_1d(np.subtract(maximum_c, minimum_c))
    if (range_c < 0).any():
        raise ImpossibleValue(
            "maximum less minimum temperature, °C", range_c[range_c < 0][0].item(), "at least 0"
        )


def _settings_of(clock: Clock, settings: dict[str, float] | None) -> tuple[float, ...]:
    given = settings or {}
    return tuple(given.get(key, DEFAULTS[key].value) for key in clock.settings)


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
