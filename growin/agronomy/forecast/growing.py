"""The growth bar on weather to come: from when, on each course of it, the green is growing."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from growin.agronomy.climate import Climate

_DAY = timedelta(days=1)


@dataclass(frozen=True)
class GrowthBar:
    """Mean air of the last days that shows growth, °C, and that which loses it again.

    ``before_c``: the days before the forecast, oldest first, one fewer than the mean takes;
    ``growing_now``: growth was met since the gate and not lost by the eve of the forecast.
    """

    air_c: float
    lost_under_c: float
    before_c: tuple[float, ...]
    growing_now: bool

    @property
    def days(self) -> int:
        """Days of the mean."""
        return len(self.before_c) + 1


def growth_bar(climate: Climate, gate_on: date, as_of: date, settings: Mapping[str, float]) -> GrowthBar:
    """The bar as it stands on a day: what was met from the gate on, and the days its mean reaches back to."""
    days = int(settings["criterion.growth.days"])
    air_c, lost_c = settings["criterion.growth.air_c"], settings["criterion.growth.lost_under_c"]
    growing = False
    for back in range(max((as_of - gate_on).days, 0), 0, -1):
        mean = _mean_c(climate, as_of - back * _DAY, days)
        growing = mean >= air_c or (growing and mean >= lost_c)
    before = tuple(climate.mean_c(as_of - back * _DAY) for back in range(days - 1, 0, -1))
    return GrowthBar(air_c, lost_c, before, growing)


def _mean_c(climate: Climate, day: date, days: int) -> float:
    return sum(climate.mean_c(day - back * _DAY) for back in range(days)) / days


def means_c(temperatures_c: np.ndarray, bar: GrowthBar, days: np.ndarray) -> np.ndarray:
    """Mean air of the last days on each of ``days``, (steps, paths)."""
    summed = np.zeros((len(days), temperatures_c.shape[1]))
    before = np.array(bar.before_c)[:, None]
    for back in range(bar.days):
        first = int(np.searchsorted(days, back))
        summed[first:] += temperatures_c[days[first:] - back]
        summed[:first] += before[days[:first] - back]
    return summed / bar.days


def next_growing(mean_c: np.ndarray, bar: GrowthBar, gate_step: int) -> np.ndarray:
    """For each step the first step from it on that shows growth, (steps + 1, paths).

    The number of steps stands for "beyond the last". Growth counts from the gate on, and once
    met it stays until the mean falls under ``lost_under_c``.
    """
    steps = len(mean_c)
    number = np.arange(steps, dtype=np.int32)[:, None]
    met = np.where((mean_c >= bar.air_c) & (number >= gate_step), number, -1 if bar.growing_now else -2)
    lost = np.where(mean_c < bar.lost_under_c, number, -2)
    growing = np.maximum.accumulate(met, axis=0) > np.maximum.accumulate(lost, axis=0)
    first = np.full((steps + 1, mean_c.shape[1]), steps, dtype=np.int32)
    first[:-1] = np.minimum.accumulate(np.where(growing, number, steps)[::-1], axis=0)[::-1]
    return first
