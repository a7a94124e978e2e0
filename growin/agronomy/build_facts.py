"""How a green was built, as plain data: what was levelled, laid, tested and switched on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from statistics import fmean

import numpy as np

from growin.agronomy.rootzone import sieve_diameter

EXCAVATION, GRAVEL, BLINDING, ROOTZONE = "excavation", "gravel", "blinding", "rootzone"
DRAINS = "drains"
_FROM_THE_TOP = (ROOTZONE, BLINDING, GRAVEL)


@dataclass(frozen=True)
class MaterialFacts:
    """What the laboratory found; ``grading`` pairs sieve size in mm with % by weight passing."""

    grading: Sequence[tuple[float, float]] = ()
    total_porosity_percent: float | None = None
    air_filled_percent: float | None = None
    capillary_percent: float | None = None
    ksat_mm_h: float | None = None
    organic_matter_percent: float | None = None

    def passing_percent(self, size_mm: float) -> float | None:
        """% finer than a size, on the log of size between sieves; None where the curve does not reach.

        Above a sieve that everything passes it is 100.
        """
        if not self.grading:
            return None
        sizes, passing = (np.array(one, dtype=float) for one in zip(*sorted(self.grading), strict=True))
        if size_mm < sizes[0] or (size_mm > sizes[-1] and passing[-1] < 100):
            return None
        return float(np.interp(np.log(size_mm), np.log(sizes), passing))

    def between_percent(self, from_mm: float, to_mm: float) -> float | None:
        """% by weight between two sizes (0: from the finest); None where the curve does not reach."""
        upper = self.passing_percent(to_mm)
        lower = self.passing_percent(from_mm) if from_mm else 0.0
        return None if None in (upper, lower) else upper - lower

    def diameter_mm(self, at_percent: float) -> float | None:
        """``Dx``, mm; None where the curve does not reach."""
        passing = [one for _, one in self.grading]
        if not passing or not min(passing) <= at_percent <= max(passing):
            return None
        return sieve_diameter([one for one, _ in self.grading], passing, at_percent)


@dataclass(frozen=True)
class DrainFacts:
    """Drains: trench and bedding in mm, spacing of laterals in m, least fall in %, pipes in mm."""

    trench_width_mm: float | None = None
    trench_depth_mm: float | None = None
    bedding_mm: float | None = None
    lateral_spacing_m: float | None = None
    reaches_edge: bool | None = None
    fall_percent: float | None = None
    main_mm: float | None = None
    lateral_mm: float | None = None
    perforated: bool | None = None


@dataclass(frozen=True)
class IrrigationFacts:
    """Days on which water was live, heads were audited and a hose stood at the green."""

    live_on: date | None = None
    audited_on: date | None = None
    hose_ready_on: date | None = None


@dataclass(frozen=True)
class BuildFacts:
    """One build.

    ``depths_mm``: level readings by layer ("excavation", "gravel", "blinding", "rootzone").
    ``has_blinding``: None takes it from the readings.
    ``established_on``: first turf down, or sowing.
    """

    depths_mm: Mapping[str, Sequence[float]] = field(default_factory=dict)
    has_blinding: bool | None = None
    drains: DrainFacts = DrainFacts()
    rootzone: MaterialFacts = MaterialFacts()
    gravel: MaterialFacts = MaterialFacts()
    blinding: MaterialFacts = MaterialFacts()
    irrigation: IrrigationFacts = IrrigationFacts()
    turf_soil: MaterialFacts | None = None
    established_on: date | None = None

    @property
    def blinded(self) -> bool:
        """Whether a blinding layer lies between gravel and rootzone."""
        return bool(self.depths_mm.get(BLINDING)) if self.has_blinding is None else self.has_blinding

    def readings(self, layer: str) -> Sequence[float]:
        """Level readings of one layer, mm."""
        return self.depths_mm.get(layer, ())

    def lies_at(self, layer: str) -> tuple[float | None, float | None]:
        """Top and foot of a layer below the finished level, mm, by its mean depths; None unknown."""
        if layer in (EXCAVATION, DRAINS):
            return self._in_the_ground(layer)
        top = 0.0
        for one in _FROM_THE_TOP:
            depths = self.readings(one)
            if one == layer:
                return (top, top + fmean(depths)) if depths else (None, None)
            top += fmean(depths) if depths else 0.0
        return None, None

    def _in_the_ground(self, layer: str) -> tuple[float | None, float | None]:
        depths, trench_mm = self.readings(EXCAVATION), self.drains.trench_depth_mm
        if not depths or (layer == DRAINS and trench_mm is None):
            return None, None
        foot = fmean(depths)
        return (0.0, foot) if layer == EXCAVATION else (foot, foot + trench_mm)
