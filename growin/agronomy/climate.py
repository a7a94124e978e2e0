"""The weather a green has had and may expect: daily means, clocks and the first day of this or that.

Normals are twelve monthly means, °C, January first. Between them runs a smooth curve that keeps
every monthly mean. A measured day takes its own mean; any other day is *estimated*: it takes the
expectation over the day-to-day spread about the curve, because the growth of a mean day is
not the mean of its days' growth.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from functools import lru_cache
from types import MappingProxyType

import numpy as np

from growin.agronomy import growth
from growin.agronomy.defaults import OUR_JUDGEMENT, PUBLISHED, Default, table
from growin.agronomy.impossible import ImpossibleValue, require_range
from growin.agronomy.normals import daily_normals

DEFAULTS = table(
    Default("climate.shift_c", 1.0, "°C more or less",
            "how much warmer or colder than normal a season may be", 0, 4, OUR_JUDGEMENT),
    Default("climate.growth_stops_c", 6.0, "°C", "7-day mean under which growth stops", 2, 10, PUBLISHED,
            "leaf clock base 6 °C: British print"),
)  # fmt: skip

LONGEST_DAYS = 1200
_DAY = timedelta(days=1)


@dataclass(frozen=True)
class DayClock:
    """What a day is worth, with the club's own ``factor`` on its pace.

    ``kind`` "degree_days" counts °C above ``point_c``; "potential" is the growth potential
    with optimum ``point_c`` and spread ``width_c``, 0 to 1 a day.
    """

    kind: str
    point_c: float
    width_c: float = 0.0
    factor: float = 1.0

    def worth(self, mean_c):
        """Worth of days whose means were measured."""
        if self.kind == "potential":
            return self.factor * growth.growth_potential(mean_c, self.point_c, self.width_c)
        return self.factor * growth.degree_days_above(mean_c, self.point_c)

    def expected(self, mean_c, spread_c: float):
        """Worth to be expected of days spread by ``spread_c`` about these means."""
        if self.kind == "potential":
            shape = self.point_c, self.width_c, spread_c
            return self.factor * growth.expected_growth_potential(mean_c, *shape)
        return self.factor * growth.expected_degree_days(mean_c, self.point_c, spread_c)


def degree_days(base_c: float, factor: float = 1.0) -> DayClock:
    """°C·days above a base: 0 for roots of turf, 6 for leaf in a cool spring."""
    return DayClock("degree_days", base_c, factor=factor)


def potential(optimum_c: float, spread_c: float, factor: float = 1.0) -> DayClock:
    """Growth days: the sum of the growth potential (Gelernter & Stowell 2005)."""
    return DayClock("potential", optimum_c, spread_c, factor)


@lru_cache(maxsize=256)
def smooth_year(normals_c: tuple[float, ...]) -> tuple[float, ...]:
    """365 daily means whose monthly means are the normals."""
    return tuple(daily_normals(normals_c).tolist())


@lru_cache(maxsize=1024)
def _worth_of_year(normals_c: tuple[float, ...], spread_c: float, clock: DayClock) -> tuple[float, ...]:
    return tuple(clock.expected(np.array(smooth_year(normals_c)), spread_c).tolist())


@lru_cache(maxsize=8192)
def _worth_of_mean(mean_c: float, clock: DayClock) -> float:
    """Sums from one first day to many last ones ask for the same days again and again."""
    return float(clock.worth(mean_c))


#: By month and day, in a year of 365.
_OF_CURVE = {(one.month, one.day): n for n in range(365) for one in [date(2001, 1, 1) + n * _DAY]} | {
    (2, 29): 58
}


def day_of_curve(day: date) -> int:
    """Index of a day in the curve of 365 days; 29 February shares that of the 28th."""
    return _OF_CURVE[day.month, day.day]


def _frozen(days: Mapping[date, float]) -> Mapping[date, float]:
    return MappingProxyType(dict(days))


@dataclass(frozen=True)
class Climate:
    """Normals, their day-to-day spread, and what was measured.

    Parameters
    ----------
    normals_c : tuple of 12 floats
        Monthly mean air temperature, °C, January first.
    spread_c : float
        Standard deviation of daily means about the curve, °C.
    daily : mapping of date to float
        Measured daily means, °C.

    Raises
    ------
    ImpossibleValue
        For other than twelve normals, or temperatures no place on earth has.
    """

    normals_c: tuple[float, ...]
    spread_c: float = 3.0
    daily: Mapping[date, float] = field(default_factory=dict)

    def __post_init__(self):
        object.__setattr__(self, "normals_c", tuple(float(one) for one in self.normals_c))
        object.__setattr__(self, "daily", _frozen(self.daily))
        if len(self.normals_c) != 12:
            raise ImpossibleValue("monthly normals", len(self.normals_c), "twelve of them, January first")
        require_range("monthly normal, °C", self.normals_c, -60, 50)
        require_range("day-to-day spread, °C", self.spread_c, 0, 15)
        require_range("measured daily mean, °C", list(self.daily.values()) or [0], -80, 60)

    def shifted(self, by_c: float) -> "Climate":
        """The same measured days on normals so much warmer or colder."""
        return replace(self, normals_c=tuple(one + by_c for one in self.normals_c))

    def is_measured(self, day: date) -> bool:
        """Whether the day's mean was measured; an estimated day never passes as measured."""
        return day in self.daily

    def normal_c(self, day: date) -> float:
        """The mean to be expected of a day from the normals, °C."""
        return smooth_year(self.normals_c)[day_of_curve(day)]

    def mean_c(self, day: date) -> float:
        """The day's mean, °C: measured, else expected."""
        measured = self.daily.get(day)
        return self.normal_c(day) if measured is None else measured

    def week_mean_c(self, day: date) -> float:
        """Mean air temperature of the seven days that end with ``day``, °C."""
        return sum(self.mean_c(day - n * _DAY) for n in range(7)) / 7

    def soil_c(self, day: date) -> float:
        """Soil at 100 mm, 9 am, as estimated where none was read: the mean air of the last seven days, °C."""
        return self.week_mean_c(day)

    def worth(self, clock: DayClock, day: date) -> float:
        """What one day adds to a clock: its own where measured, else the expectation."""
        measured = self.daily.get(day)
        if measured is None:
            return _worth_of_year(self.normals_c, self.spread_c, clock)[day_of_curve(day)]
        return _worth_of_mean(measured, clock)

    def sum_between(self, clock: DayClock, start: date, end: date) -> float:
        """Sum of a clock over the days from ``start`` up to, not including, ``end``."""
        return sum(self.worth(clock, start + n * _DAY) for n in range(max((end - start).days, 0)))

    def day_when(
        self, clock: DayClock, start: date, target: float, within: int = LONGEST_DAYS
    ) -> date | None:
        """The first day by whose morning it has run ``target`` since ``start``; None beyond the limit."""
        run = 0.0
        for n in range(within + 1):
            if run >= target:
                return start + n * _DAY
            run += self.worth(clock, start + n * _DAY)
        return None

    def first_day(
        self, start: date, is_so: Callable[[date], bool], within: int = LONGEST_DAYS
    ) -> date | None:
        """The first day from ``start`` on which something is so; None beyond the limit."""
        days = (start + n * _DAY for n in range(within + 1))
        return next((day for day in days if is_so(day)), None)

    def first_week_at(self, start: date, mean_c: float, within: int = LONGEST_DAYS) -> date | None:
        """The first day from ``start`` whose 7-day mean air is at least ``mean_c``."""
        return self.first_day(start, lambda day: self.week_mean_c(day) >= mean_c, within)

    def growth_stops(self, start: date, under_c: float = 6.0, within: int = LONGEST_DAYS) -> date | None:
        """The first day after ``start`` whose expected mean is under ``under_c``; None where it never is.

        Smoothed normals alone decide, so that a cold snap does not end a season.
        """
        return self.first_day(start + _DAY, lambda day: self.normal_c(day) < under_c, within)

    def soil_held(self, start: date, soil_c: float, days: int = 7, within: int = LONGEST_DAYS) -> date | None:
        """The first day from ``start`` by which the soil stood at ``soil_c`` or more for ``days`` days."""

        def held(day: date) -> bool:
            return all(self.soil_c(day - n * _DAY) >= soil_c for n in range(days))

        return self.first_day(start, held, within)

    def measured_share(self, start: date, end: date) -> float:
        """Share of the days from ``start`` up to, not including, ``end`` that were measured, 0 to 1."""
        days = max((end - start).days, 0)
        return sum(self.is_measured(start + n * _DAY) for n in range(days)) / days if days else 0.0
