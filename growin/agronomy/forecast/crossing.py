"""Greens crossed with weather: the day each of them could open on each course of it.

Loops over paths and criteria, so that no array is larger than (steps, paths) or (paths, draws).
"""

from dataclasses import dataclass
from datetime import date

import numpy as np

from growin.agronomy.climate import DayClock
from growin.agronomy.forecast.chain import Chain, Run, end_of_chain
from growin.agronomy.forecast.growing import GrowthBar, means_c, next_growing

#: What came last in a cell, after the bars of the family, which count from 0.
DRESSING, HEIGHT, GATE, GROWTH, MENDED, NOTHING = range(10, 16)


@dataclass(frozen=True)
class Course:
    """Everything one crossing needs, in plain numbers; days count from the day of the forecast.

    ``needed``: (draws,) what the clock must still run until the last criterion that waits is met;
    ``last_bar``: (draws,) which that is. ``dressed``: (draws,) whether it has to wait for sand.
    ``mended_on``: (draws,) day by which what is broken has been put right.
    ``read_back``, ``read_every``: (draws,) days since the last set of readings and between two;
    ``read_again``: (draws,) days lost to sets that fail by chance; ``waits_for_reading``: whether
    a criterion is still to be read as met.
    """

    as_of: date
    clock: DayClock
    leaf_clock: DayClock
    days: np.ndarray
    needed: np.ndarray
    last_bar: np.ndarray
    dressed: np.ndarray
    mended_on: np.ndarray
    read_back: np.ndarray
    read_every: np.ndarray
    read_again: np.ndarray
    waits_for_reading: bool
    gate_day: int
    cutting: Chain
    dressing: Chain
    growth: GrowthBar

    @property
    def beyond(self) -> int:
        """The day number that stands for "beyond the horizon"."""
        return int(self.days[-1]) + 1


def cross(temperatures_c: np.ndarray, course: Course) -> tuple[np.ndarray, np.ndarray]:
    """Day of opening, and what came last, for every path and draw, each (paths, draws).

    Parameters
    ----------
    temperatures_c : (days, paths) daily means, °C, from the day of the forecast on.
    course : Course
    """
    run = _run(temperatures_c, course)
    gate = int(run.step_of(course.gate_day))
    growing = next_growing(means_c(temperatures_c, course.growth, course.days), course.growth, gate)
    ready, last = _ready(run, gate, course)
    opening = np.take_along_axis(growing.T, ready, axis=1)
    last[opening > ready] = GROWTH
    if not course.waits_for_reading:
        last[opening == 0] = NOTHING
    return _days_read(opening, course), last


def cumulated(temperatures_c: np.ndarray, clock: DayClock, days: np.ndarray) -> np.ndarray:
    """What a clock has run by the morning of each of ``days``, (steps, paths)."""
    worth = _worth(temperatures_c, clock)
    np.cumsum(worth, axis=0, out=worth)
    run = np.zeros((len(days), temperatures_c.shape[1]))
    run[days > 0] = worth[days[days > 0] - 1]
    return run


def _worth(temperatures_c: np.ndarray, clock: DayClock) -> np.ndarray:
    """:meth:`DayClock.worth` of temperatures known to be possible, worked out in one array."""
    worth = temperatures_c - clock.point_c
    if clock.kind == "potential":
        worth /= clock.width_c
        np.multiply(worth, worth, out=worth)
        worth *= -0.5
        np.exp(worth, out=worth)
    else:
        np.maximum(worth, 0.0, out=worth)
    worth *= clock.factor
    return worth


def _run(temperatures_c: np.ndarray, course: Course) -> Run:
    leaf = cumulated(temperatures_c, course.leaf_clock, course.days)
    return Run(course.as_of, course.days, leaf, cumulated(temperatures_c, course.clock, course.days))


def _ready(run: Run, gate: int, course: Course) -> tuple[np.ndarray, np.ndarray]:
    """Step by which all but growth is met, and what of it came last."""
    ready = _looked_up(run.own, course.needed)
    last = np.empty(ready.shape, dtype=np.int8)
    last[:] = course.last_bar
    dressed = end_of_chain(course.dressing, run)[:, None] * course.dressed
    _hold_back(ready, last, dressed, DRESSING)
    _hold_back(ready, last, run.step_of(course.mended_on)[None, :], MENDED)
    _hold_back(ready, last, end_of_chain(course.cutting, run)[:, None], HEIGHT)
    _hold_back(ready, last, np.array([[gate]]), GATE)
    return ready, last


def _looked_up(own: np.ndarray, needed: np.ndarray) -> np.ndarray:
    """First step at which each path's clock has run what each draw still needs."""
    found = np.empty((own.shape[1], len(needed)), dtype=np.int32)
    for path, run in zip(found, np.ascontiguousarray(own.T), strict=True):
        path[:] = run.searchsorted(needed)
    return found


def _hold_back(ready: np.ndarray, last: np.ndarray, until: np.ndarray, what: int) -> None:
    np.copyto(last, what, where=until > ready, casting="unsafe")
    np.maximum(ready, until, out=ready, casting="unsafe")


def _days_read(opening: np.ndarray, course: Course) -> np.ndarray:
    """Day of opening from its step, moved to the next day on which the green would be read.

    Only a green on which nothing is unmet opens without another look.
    """
    day = np.append(course.days, course.beyond).astype(np.int32)[opening]
    day += course.read_back.astype(np.int32)
    np.maximum(day, 1, out=day)
    day += (-day) % course.read_every.astype(np.int32)
    day += (course.read_again - course.read_back).astype(np.int32)
    np.minimum(day, course.beyond, out=day)
    if not course.waits_for_reading:
        day[opening == 0] = 0
    return day
