"""Readings against drawn greens: how likely each green would have shown them, and who is kept."""

from collections import Counter
from collections.abc import Mapping, Sequence
from math import log

import numpy as np

from growin.agronomy.forecast.curves import DEPTH, mean_depth_mm, share_passing
from growin.agronomy.forecast.greens_drawn import DrawnGreens
from growin.agronomy.forecast.sighting import Sighting

#: A reading on the day of laying has no clock behind it; the way is held above this.
SHORTEST_WAY = -12.0
LEAST_MM = 2.0
_STUDENT = 4.0
_HALVINGS = 20


def log_likelihood(
    greens: DrawnGreens,
    sightings: Sequence[Sighting],
    depth_mm: float,
    settings: Mapping[str, float],
) -> np.ndarray:
    """Logarithm of the likelihood of all readings for each green, (draws,).

    Places of one set are alike and readings of one measure repeat one another's error, so
    both count for less than their number. Answers stray, so none is ever decisive.
    """
    total = np.zeros(greens.ready.shape[1])
    repeats = Counter(one.measure for one in sightings)
    for one in sightings:
        weight = 1 / (1 + (repeats[one.measure] - 1) * settings["forecast.reading.repeats"])
        total += weight * _of_one(greens, one, depth_mm, settings)
    return total


def _of_one(greens: DrawnGreens, one: Sighting, depth_mm: float, settings) -> np.ndarray:
    way = np.maximum(np.log(max(one.clock, 1e-9) / greens.ready[one.bar]), SHORTEST_WAY)
    steepness = greens.steepness[one.measure]
    if one.measure == DEPTH:
        ready_mm = depth_mm * settings["forecast.roots.at_ready"]
        return _of_depth(one, mean_depth_mm(way, steepness, ready_mm), settings)
    at_ready = settings[f"forecast.curve.{one.measure}.at_ready"]
    return _of_count(one, share_passing(one.measure, way, steepness, at_ready), settings)


def _of_count(one: Sighting, share: np.ndarray, settings) -> np.ndarray:
    """Binomial, thinned by the likeness of places and mixed with answers that stray."""
    thinned = 1 + (one.places - 1) * settings[f"forecast.curve.{one.measure}.alike"]
    stray = settings["forecast.reading.stray"]
    passing = stray + (1 - 2 * stray) * share
    return (one.passed * np.log(passing) + (one.places - one.passed) * np.log1p(-passing)) / thinned


def _of_depth(one: Sighting, expected_mm: np.ndarray, settings) -> np.ndarray:
    """Student t about the logarithm of the expected depth, wide in the tails for an odd set."""
    variance = (
        settings["forecast.roots.set_spread"] ** 2
        + settings["forecast.roots.core_spread"] ** 2 / one.places
    )  # fmt: skip
    off = log(max(one.mean_mm, LEAST_MM)) - np.log(np.maximum(expected_mm, LEAST_MM))
    return -(_STUDENT + 1) / 2 * np.log1p(off**2 / (_STUDENT * variance))


def softened_weights(likelihood: np.ndarray, least_draws: float) -> np.ndarray:
    """Weights adding to 1, flattened just so far that at least so many draws carry them.

    The number carried is Kish's: 1 / sum of squared weights.
    """
    weights = _weights(likelihood, 1.0)
    if _carried(weights) >= least_draws:
        return weights
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        if _carried(_weights(likelihood, middle)) >= least_draws:
            low = middle
        else:
            high = middle
    return _weights(likelihood, low)


def _weights(likelihood: np.ndarray, power: float) -> np.ndarray:
    raised = np.exp(power * (likelihood - likelihood.max()))
    return raised / raised.sum()


def _carried(weights: np.ndarray) -> float:
    return 1 / float(weights @ weights)


def keep(greens: DrawnGreens, weights: np.ndarray, count: int) -> DrawnGreens:
    """``count`` greens, in proportion to their weights, evenly spaced along the day they are ready.

    Source: systematic resampling, any text on particle filters.
    """
    order = np.argsort(greens.ready.max(axis=0), kind="stable")
    reached = np.cumsum(weights[order])
    places = (np.arange(count) + 0.5) / count * reached[-1]
    return greens.taken(order[np.searchsorted(reached, places)])
