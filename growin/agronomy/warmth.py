"""How warm a season has been so far, beside earlier ones: sums of a clock from midwinter on.

A season begins with :func:`~growin.agronomy.season.year_start`. Days that were not measured take
the expectation from the normals, so that a gap neither holds a season back nor hurries it; a
season counts among the earlier ones only when most of its days were measured.
"""

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from growin.agronomy.climate import Climate, DayClock, day_of_curve, smooth_year
from growin.agronomy.season import year_start

SEASON_DAYS = 365
#: Share of its days that an earlier season must have measured to be shown (our judgement).
ENOUGH_MEASURED = 0.8
MOST_EARLIER = 30
_DAY = timedelta(days=1)


@dataclass(frozen=True)
class Run:
    """One season: its first day, the sum by the evening of each day, and which days were measured."""

    start: date
    sums: np.ndarray
    is_measured: np.ndarray

    @property
    def years(self) -> str:
        """The year, or both years of a southern season: "2025", "2025/26"."""
        last = self.start + (SEASON_DAYS - 1) * _DAY
        return f"{self.start.year}" if last.year == self.start.year else f"{self.start.year}/{last:%y}"


@dataclass(frozen=True)
class Seasons:
    """This season so far, a normal one, and the earlier ones, newest first; sums in units of the clock."""

    this: Run
    normal: np.ndarray
    earlier: tuple[Run, ...]

    @property
    def span(self) -> tuple[np.ndarray, np.ndarray] | None:
        """The least and the greatest of the earlier sums on each day; None without earlier seasons."""
        if not self.earlier:
            return None
        sums = np.stack([run.sums for run in self.earlier])
        return sums.min(axis=0), sums.max(axis=0)

    @property
    def ahead_of(self) -> int:
        """How many earlier seasons were behind this one on the same day."""
        last = len(self.this.sums) - 1
        return sum(run.sums[last] < self.this.sums[last] for run in self.earlier)


def seasons(
    climate: Climate,
    clock: DayClock,
    as_of: date,
    latitude_deg: float,
    earlier: tuple[Run, ...] | None = None,
) -> Seasons:
    """This season to the evening of ``as_of``, beside a normal one and the club's earlier ones.

    Parameters
    ----------
    climate : normals and all measured days; those of this season where ``earlier`` ones are known.
    clock : what a day is worth, such as degree days above 6 °C.
    as_of : the last day that counts.
    latitude_deg : south negative; seasons begin in midwinter.
    """
    start = year_start(as_of, latitude_deg)
    so_far = min((as_of - start).days + 1, SEASON_DAYS)
    return Seasons(
        run_of(climate, clock, start, so_far),
        np.cumsum(_expected(climate, clock)[_places(start, SEASON_DAYS)]),
        earlier_than(start, climate, clock) if earlier is None else earlier,
    )


def earlier_than(start: date, climate: Climate, clock: DayClock) -> tuple[Run, ...]:
    """The seasons before the one that begins on ``start`` that were measured well enough, newest first."""
    back = (start.replace(year=start.year - n) for n in range(1, MOST_EARLIER + 1))
    first = min(climate.daily, default=start)
    runs = (run_of(climate, clock, one, SEASON_DAYS) for one in back if one + SEASON_DAYS * _DAY > first)
    return tuple(run for run in runs if run.is_measured.mean() >= ENOUGH_MEASURED)


def run_of(climate: Climate, clock: DayClock, start: date, days: int) -> Run:
    """Sums of a clock over so many days from ``start``; days not measured as expected."""
    means = np.array([climate.daily.get(start + n * _DAY, np.nan) for n in range(days)], dtype=float)
    is_measured = ~np.isnan(means)
    worth = _expected(climate, clock)[_places(start, days)]
    worth[is_measured] = clock.worth(means[is_measured])
    return Run(start, np.cumsum(worth), is_measured)


def _expected(climate: Climate, clock: DayClock) -> np.ndarray:
    return np.asarray(clock.expected(np.array(smooth_year(climate.normals_c)), climate.spread_c))


def _places(start: date, days: int) -> list[int]:
    return [day_of_curve(start + n * _DAY) for n in range(days)]
