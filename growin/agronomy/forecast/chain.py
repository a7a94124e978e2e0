"""Steps that must follow one another, each with its least hold: heights on the way down, dressings.

A hold is over when it has stood its days, the leaf has grown its degree days, the green's own
clock has run its amount, and its season has come.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np


@dataclass(frozen=True)
class Hold:
    """The least that must pass before the next step: days, leaf growth in °C·days, own clock, season."""

    days: int
    leaf: float = 0.0
    own: float = 0.0
    not_before: date | None = None


@dataclass(frozen=True)
class Chain:
    """Holds still to come; the first has stood ``stood_days`` and seen that much leaf and clock."""

    holds: tuple[Hold, ...] = ()
    stood_days: int = 0
    stood_leaf: float = 0.0
    stood_own: float = 0.0


@dataclass(frozen=True)
class Run:
    """Clocks as they run from ``start``: cumulated ``leaf`` and ``own``, (steps, paths), on ``days``."""

    start: date
    days: np.ndarray
    leaf: np.ndarray
    own: np.ndarray

    def step_of(self, day) -> np.ndarray:
        """The first step on or after a day number; as many as there are steps when beyond the last."""
        return np.searchsorted(self.days, day)


def end_of_chain(chain: Chain, run: Run) -> np.ndarray:
    """Step by which every hold is over, (paths,); the number of steps where that lies beyond the last."""
    paths = run.leaf.shape[1]
    day = np.full(paths, -chain.stood_days)
    leaf, own = np.full(paths, -chain.stood_leaf), np.full(paths, -chain.stood_own)
    step = np.zeros(paths, dtype=int)
    for hold in chain.holds:
        step = np.maximum(step, _end_of_hold(hold, day, leaf, own, run))
        within = np.minimum(step, len(run.days) - 1)
        day = np.where(step < len(run.days), run.days[within], run.days[-1] + 1)
        leaf, own = run.leaf[within, np.arange(paths)], run.own[within, np.arange(paths)]
    return step


def _end_of_hold(hold: Hold, day: np.ndarray, leaf: np.ndarray, own: np.ndarray, run: Run) -> np.ndarray:
    season = (hold.not_before - run.start).days if hold.not_before else 0
    step = run.step_of(np.maximum(day + hold.days, season))
    if hold.leaf:
        step = np.maximum(step, (run.leaf < leaf + hold.leaf).sum(axis=0))
    if hold.own:
        step = np.maximum(step, (run.own < own + hold.own).sum(axis=0))
    return step


def what_remains(holds: Sequence[Hold], past: Run) -> Chain:
    """The chain as it stands at the end of a past that ran on one course, started on its first day."""
    done = Chain()
    for number in range(1, len(holds) + 1):
        step = int(end_of_chain(replace(done, holds=tuple(holds[:number])), past)[0])
        if step >= len(past.days):
            return stood_since(holds[number - 1 :], past, _started(holds[: number - 1], past))
    return Chain()


def _started(holds: Sequence[Hold], past: Run) -> int:
    return int(end_of_chain(Chain(tuple(holds)), past)[0])


def stood_since(holds: Sequence[Hold], past: Run, day: int) -> Chain:
    """A chain whose first hold began on a day of the past, counted from its start."""
    last = len(past.days) - 1
    begun = min(max(day, 0), last)
    return Chain(
        tuple(holds),
        last - begun,
        float(past.leaf[last, 0] - past.leaf[begun, 0]),
        float(past.own[last, 0] - past.own[begun, 0]),
    )
