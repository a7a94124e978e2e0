"""Rootzone and gravel: sizes off a grading curve, and whether the layers fit each other.

Nomenclature: ``Dx`` is the size in mm below which x % of the material by weight is finer.
Gradings are % by weight in eight classes, coarse to fine (:data:`CLASSES`).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from growin.agronomy.defaults import PUBLISHED, Default, table
from growin.agronomy.impossible import ImpossibleValue, require_above, require_range, require_same_length

_USGA = "USGA, Recommendations for a Method of Putting Green Construction"
_LIMITS = f"{_USGA}, as set out by University of Arizona Extension, 1994"


def _percent(key: str, value: float, words: str) -> Default:
    return Default(f"rootzone.{key}", value, "%", words, 0, 100, PUBLISHED, _LIMITS)


DEFAULTS = table(
    _percent("fine_gravel_most_percent", 3, "fine gravel, at most"),
    _percent("gravel_and_very_coarse_most_percent", 10, "fine gravel with very coarse sand, at most"),
    _percent("coarse_and_medium_least_percent", 60, "coarse with medium sand, at least"),
    _percent("fine_most_percent", 20, "fine sand, at most"),
    _percent("very_fine_most_percent", 5, "very fine sand, at most"),
    _percent("silt_most_percent", 5, "silt, at most"),
    _percent("clay_most_percent", 3, "clay, at most"),
    _percent("fines_most_percent", 10, "very fine sand, silt and clay together, at most"),
    Default(
        "gravel.bridging_most", 8, "", "D15 of the gravel in D85 of the rootzone", 1, 15, PUBLISHED, _USGA
    ),
    Default(
        "gravel.permeability_least",
        5,
        "",
        "D15 of the gravel in D15 of the rootzone",
        1,
        15,
        PUBLISHED,
        _USGA,
    ),
    Default("gravel.uniformity_most", 3, "", "D90 in D15 of the gravel", 1, 6, PUBLISHED, _USGA),
)

#: Classes of a grading with the sieve in mm each one passes, coarse to fine.
CLASSES: dict[str, float] = {
    "fine_gravel_percent": 3.4,
    "very_coarse_percent": 2.0,
    "coarse_percent": 1.0,
    "medium_percent": 0.5,
    "fine_percent": 0.25,
    "very_fine_percent": 0.15,
    "silt_percent": 0.05,
    "clay_percent": 0.002,
}
#: Eight classes printed to whole per cent may add up to this much beside 100.
ROUNDING_PERCENT = 2.0
#: Sums of decimals are not exact in binary.
HAIR = 1e-9


class GravelFactors(NamedTuple):
    """Gravel against rootzone: how they bridge, let water through, and how even the gravel is."""

    bridging_factor: float
    permeability_factor: float
    uniformity_factor: float


class Grading(NamedTuple):
    """Sums of a grading, % by weight, and whether every limit is kept."""

    gravel_and_very_coarse_percent: float
    coarse_and_medium_percent: float
    fines_percent: float
    conforms: bool


@dataclass(frozen=True)
class Limit:
    """One limit of a grading: key of :data:`DEFAULTS`, classes that are added, whether a floor."""

    key: str
    classes: tuple[str, ...]
    floor: bool = False

    def kept(self, classes: Mapping[str, float], limit_percent: float) -> bool:
        """Whether the sum of the classes keeps to the limit."""
        over_percent = sum(classes[name] for name in self.classes) - limit_percent
        return over_percent >= -HAIR if self.floor else over_percent <= HAIR


LIMITS = (
    Limit("rootzone.fine_gravel_most_percent", ("fine_gravel_percent",)),
    Limit("rootzone.gravel_and_very_coarse_most_percent", ("fine_gravel_percent", "very_coarse_percent")),
    Limit("rootzone.coarse_and_medium_least_percent", ("coarse_percent", "medium_percent"), floor=True),
    Limit("rootzone.fine_most_percent", ("fine_percent",)),
    Limit("rootzone.very_fine_most_percent", ("very_fine_percent",)),
    Limit("rootzone.silt_most_percent", ("silt_percent",)),
    Limit("rootzone.clay_most_percent", ("clay_percent",)),
    Limit("rootzone.fines_most_percent", ("very_fine_percent", "silt_percent", "clay_percent")),
)


def sieve_diameter(sieve_mm: Sequence[float], passing_percent: Sequence[float], at_percent: float) -> float:
    """Size below which a share of the material by weight is finer, mm.

    Between the two neighbouring sieves the logarithm of size runs straight against per
    cent passing. Where the curve lies flat at that share, the smallest such size.

    Parameters
    ----------
    sieve_mm : above 0, at least two, in any order, none twice.
    passing_percent : 0 to 100, never less on a coarser sieve.
    at_percent : between the least and the most of ``passing_percent``.

    Raises ImpossibleValue outside these ranges; outside the sieves there is no answer.
    Source: Das, Principles of geotechnical engineering.
    """
    sizes, passing = _curve(sieve_mm, passing_percent)
    require_range("per cent passing asked for", at_percent, passing[0], passing[-1])
    upper = int(np.searchsorted(passing, at_percent))
    if passing[upper] == at_percent:
        return float(sizes[upper])
    share = (at_percent - passing[upper - 1]) / (passing[upper] - passing[upper - 1])
    return float(sizes[upper - 1] * (sizes[upper] / sizes[upper - 1]) ** share)


def gravel_suitability(
    gravel_d15_mm: float, gravel_d90_mm: float, rootzone_d85_mm: float, rootzone_d15_mm: float
) -> GravelFactors:
    """Factors that tell whether gravel may lie under a rootzone without a blinding layer.

    Bridging D15 gravel / D85 rootzone (limit 8 at most); permeability D15 gravel / D15
    rootzone (5 at least); uniformity D90 / D15 of the gravel (3 at most).

    Parameters
    ----------
    all four : above 0, mm; D90 at least D15 of the gravel, D85 at least D15 of the rootzone.

    Raises ImpossibleValue outside these ranges.
    Source: USGA recommendations for a method of putting green construction.
    """
    require_above("D15 of the gravel, mm", gravel_d15_mm)
    require_range("D90 of the gravel, mm", gravel_d90_mm, gravel_d15_mm)
    require_above("D15 of the rootzone, mm", rootzone_d15_mm)
    require_range("D85 of the rootzone, mm", rootzone_d85_mm, rootzone_d15_mm)
    return GravelFactors(
        gravel_d15_mm / rootzone_d85_mm, gravel_d15_mm / rootzone_d15_mm, gravel_d90_mm / gravel_d15_mm
    )


def gravel_faults(factors: GravelFactors, limits: Mapping[str, float] | None = None) -> tuple[str, ...]:
    """Keys of the gravel limits in :data:`DEFAULTS` that the factors break; empty when it suits.

    ``limits`` overrides the defaults by key.
    """
    kept = {
        "gravel.bridging_most": factors.bridging_factor
        <= _limit("gravel.bridging_most", limits) * (1 + HAIR),
        "gravel.permeability_least": factors.permeability_factor
        >= _limit("gravel.permeability_least", limits) * (1 - HAIR),
        "gravel.uniformity_most": factors.uniformity_factor
        <= _limit("gravel.uniformity_most", limits) * (1 + HAIR),
    }
    return tuple(key for key, fits in kept.items() if not fits)


def rootzone_grading(
    fine_gravel_percent: float,
    very_coarse_percent: float,
    coarse_percent: float,
    medium_percent: float,
    fine_percent: float,
    very_fine_percent: float,
    silt_percent: float,
    clay_percent: float,
    limits: Mapping[str, float] | None = None,
) -> Grading:
    """Sums of a rootzone grading and whether it keeps every limit.

    Classes in mm: fine gravel 2-3.4, very coarse 1-2, coarse 0.5-1, medium 0.25-0.5, fine
    0.15-0.25, very fine 0.05-0.15, silt, clay.

    Parameters
    ----------
    all eight : 0 to 100, % by weight, together at most 102 (rounding).
    limits : overrides of :data:`DEFAULTS` by key.

    Raises ImpossibleValue outside these ranges.
    Source: USGA recommendations, as set out by University of Arizona Extension, 1994.
    """
    shares = (
        fine_gravel_percent,
        very_coarse_percent,
        coarse_percent,
        medium_percent,
        fine_percent,
        very_fine_percent,
        silt_percent,
        clay_percent,
    )
    return Grading(
        fine_gravel_percent + very_coarse_percent,
        coarse_percent + medium_percent,
        very_fine_percent + silt_percent + clay_percent,
        not grading_faults(dict(zip(CLASSES, shares, strict=True)), limits),
    )


def grading_faults(
    classes: Mapping[str, float], limits: Mapping[str, float] | None = None
) -> tuple[str, ...]:
    """Keys of the limits in :data:`DEFAULTS` that a grading breaks; empty when it conforms.

    ``classes`` holds all of :data:`CLASSES`; ``limits`` overrides the defaults by key.

    Raises ImpossibleValue for a missing class, one outside 0 to 100, or a sum above 102.
    """
    _require_grading(classes)
    return tuple(one.key for one in LIMITS if not one.kept(classes, _limit(one.key, limits)))


def grading_diameter(classes: Mapping[str, float], at_percent: float) -> float:
    """``Dx`` of a grading given in classes, mm: the D15 or D85 a gravel is judged by.

    The classes are scaled to 100 % together and added up from clay; sizes below 0.002 mm
    have no answer.

    Raises ImpossibleValue for classes that do not add up to 98 to 102, or a share below
    the clay.
    Source: Das, Principles of geotechnical engineering, for the straight line on the log scale.
    """
    _require_grading(classes)
    shares = np.array([classes[name] for name in CLASSES][::-1], dtype=float)
    require_range("all classes together, %", shares.sum(), 100 - ROUNDING_PERCENT, 100 + ROUNDING_PERCENT)
    passing = np.minimum(np.cumsum(shares) / shares.sum() * 100, 100.0)
    return sieve_diameter(list(CLASSES.values())[::-1], passing, at_percent)


def _curve(sieve_mm: Sequence[float], passing_percent: Sequence[float]) -> tuple[np.ndarray, np.ndarray]:
    """Sizes and per cent passing, fine to coarse, once they make a curve."""
    require_same_length("sieves and per cent passing", sieve_mm, passing_percent)
    require_above("sieve, mm", sieve_mm)
    require_range("passing, %", passing_percent, 0, 100)
    order = np.argsort(sieve_mm)
    sizes, passing = np.asarray(sieve_mm, dtype=float)[order], np.asarray(passing_percent, dtype=float)[order]
    if len(sizes) < 2 or (np.diff(sizes) == 0).any():
        raise ImpossibleValue("sieves, mm", list(sieve_mm), "at least two different ones")
    if (np.diff(passing) < -HAIR).any():
        raise ImpossibleValue("passing, %", list(passing_percent), "never less on a coarser sieve")
    return sizes, passing


def _require_grading(classes: Mapping[str, float]) -> None:
    missing = [name for name in CLASSES if name not in classes]
    if missing:
        raise ImpossibleValue("grading", f"without {missing[0]}", "all eight classes")
    for name in CLASSES:
        require_range(name.removesuffix("_percent").replace("_", " ") + ", %", classes[name], 0, 100)
    together = sum(classes[name] for name in CLASSES)
    require_range("all classes together, %", together, 0, 100 + ROUNDING_PERCENT)


def _limit(key: str, limits: Mapping[str, float] | None) -> float:
    return (limits or {}).get(key, DEFAULTS[key].value)
