"""The days a forecast looks at: every day of the near future, then in widening steps."""

import numpy as np

#: Days between two looks, up to which day.
WIDENING = ((1, 240), (3, 480), (7, 1200))


def horizon_steps(horizon_days: int) -> np.ndarray:
    """Day numbers from 0, the day of the forecast: 0, 1, 2 … 240, 243 … 480, 487 … and the horizon itself."""
    taken, start = [0], 0
    for step, until in WIDENING:
        taken += range(start + step, min(until, horizon_days) + 1, step)
        start = taken[-1]
    return np.union1d(taken, [horizon_days])
