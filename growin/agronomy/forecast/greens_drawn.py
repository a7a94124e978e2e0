"""Greens drawn from the prior: when each criterion is met on the clock, and how readings rise to it."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import log
from statistics import NormalDist

import numpy as np

from growin.agronomy.forecast.curves import CURVED, DEPTH
from growin.agronomy.forecast.family import Family

_TENTH = NormalDist().inv_cdf(0.9)


@dataclass(frozen=True)
class DrawnGreens:
    """Greens that might be this one.

    ``ready``: (bars, draws) amount of the clock from laying or sowing at which each criterion
    is met; the largest of a column is when the *last* is met, and has the published spread.
    ``steepness``: by measure, (draws,) how sharply its readings rise to that.
    """

    ready: np.ndarray
    steepness: Mapping[str, np.ndarray]

    def taken(self, which: np.ndarray) -> "DrawnGreens":
        """The greens at these indices."""
        return DrawnGreens(
            self.ready[:, which], {measure: one[which] for measure, one in self.steepness.items()}
        )


def prior_of(family: Family, settings: Mapping[str, float]) -> tuple[float, float]:
    """Median of the prior in units of its clock, and its spread as a logarithm."""
    early, late = (settings[f"forecast.{family.key}.{end}"] for end in ("early", "late"))
    return (early * late) ** 0.5, abs(log(late / early)) / (2 * _TENTH)


def draw_greens(
    family: Family, settings: Mapping[str, float], count: int, rng: np.random.Generator
) -> DrawnGreens:
    """``count`` greens of a family.

    Each has one latent pace, that of its last criterion. The others come earlier by shares
    of their own, so that the last of them keeps the published spread however many there are.
    """
    median, spread = prior_of(family, settings)
    last = median * np.exp(spread * rng.standard_normal(count))
    usual = np.array([settings[f"forecast.bar.{bar}"] for bar in family.bars])[:, None]
    shares = usual * np.exp(settings["forecast.bar_spread"] * rng.standard_normal((len(family.bars), count)))
    ready = last * shares / shares.max(axis=0)
    return DrawnGreens(ready, _steepness(settings, count, rng))


def _steepness(settings: Mapping[str, float], count: int, rng: np.random.Generator) -> dict:
    spread = settings["forecast.curve_spread"]
    usual = {measure: settings[f"forecast.curve.{measure}.steepness"] for measure in CURVED}
    usual[DEPTH] = settings["forecast.roots.steepness"]
    return {measure: one * np.exp(spread * rng.standard_normal(count)) for measure, one in usual.items()}
