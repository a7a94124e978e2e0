"""How a measure rises to its criterion as the clock runs: shares on a bounded scale, hazards, depth.

Everywhere ``way`` is the logarithm of (clock at the reading / clock at which the criterion is
met): below 0 before, 0 when ready, above 0 after.
"""

from math import log

import numpy as np

DEPTH = "rooting_depth"
#: Share of places within their limit: rises on the logistic scale.
SHARES = ("hand_pull", "cover", "joint_gap", "joint_proud", "lip", "dip")
#: Yes or no: each place turns to yes once, with a hazard that grows with the clock.
HAZARDS = ("hole", "drop", "bare_patch", "ball_roll")
CURVED = (*SHARES, *HAZARDS)


def share_passing(measure: str, way: np.ndarray, steepness: np.ndarray, at_ready: float) -> np.ndarray:
    """Share of places that pass, 0 to 1; ``at_ready`` of them once the criterion is met."""
    if measure in HAZARDS:
        return _turned(way, steepness, at_ready)
    return _risen(way, steepness, at_ready)


def _risen(way: np.ndarray, steepness: np.ndarray, at_ready: float) -> np.ndarray:
    """Logistic in the logarithm of the clock, so never under 0 nor over 1."""
    return 1 / (1 + np.exp(-(log(at_ready / (1 - at_ready)) + steepness * way)))


def _turned(way: np.ndarray, steepness: np.ndarray, at_ready: float) -> np.ndarray:
    """Weibull: the share that has turned to yes when the hazard grows with a power of the clock."""
    return -np.expm1(log(1 - at_ready) * np.exp(np.minimum(steepness * way, 50.0)))


def mean_depth_mm(way: np.ndarray, steepness: np.ndarray, ready_mm: float) -> np.ndarray:
    """Mean depth of roots, mm: a power of the clock that passes ``ready_mm`` when ready."""
    return ready_mm * np.exp(steepness * way)
