"""Drains: what a pipe carries when full, and what rain sends to it, l/s."""

import math
from typing import NamedTuple

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT, Default, table
from growin.agronomy.impossible import require_above, require_range

DEFAULTS = table(
    Default(
        "drain.roughness", 0.016, "", "Manning n of corrugated plastic pipe", 0.009, 0.03, COMMON_PRACTICE
    ),
    Default("drain.design_rain_mm_h", 25, "mm/h", "rain that the drains should carry", 2, 150, OUR_JUDGEMENT),
)
ROUGHNESS = DEFAULTS["drain.roughness"].value
DESIGN_RAIN_MM_H = DEFAULTS["drain.design_rain_mm_h"].value
SECONDS_PER_HOUR = 3600


class DrainFlow(NamedTuple):
    """Water that comes and water the pipe carries, l/s; the rain it could just carry, mm/h."""

    inflow_l_s: float
    capacity_l_s: float
    carries: bool
    most_rain_mm_h: float


def pipe_capacity(bore_mm: float, slope: float, roughness: float = ROUGHNESS) -> float:
    """Flow of a round pipe running full, l/s.

    Parameters
    ----------
    bore_mm : above 0, inside diameter.
    slope : 0 to 1, m of fall in each m.
    roughness : above 0, Manning n (corrugated plastic about 0.016).

    Raises ImpossibleValue outside these ranges.
    Source: Manning equation.
    """
    require_above("bore of the pipe, mm", bore_mm)
    require_range("fall, m per m", slope, 0, 1)
    require_above("roughness", roughness)
    bore_m = bore_mm / 1000
    return 1000 / roughness * math.pi * bore_m**2 / 4 * (bore_m / 4) ** (2 / 3) * math.sqrt(slope)


def drain_inflow(rain_mm_h: float, area_m2: float) -> float:
    """Flow that rain on an area sends to its drains, l/s; both at least 0.

    Raises ImpossibleValue below zero.
    Source: unit identity used in drainage design.
    """
    require_range("rain, mm/h", rain_mm_h, 0)
    require_range("area, m²", area_m2, 0)
    return rain_mm_h * area_m2 / SECONDS_PER_HOUR


def drain_flow(
    bore_mm: float,
    slope: float,
    area_m2: float,
    rain_mm_h: float = DESIGN_RAIN_MM_H,
    roughness: float = ROUGHNESS,
) -> DrainFlow:
    """Whether a pipe running full carries the rain of the area it drains.

    Parameters
    ----------
    bore_mm, slope, roughness : as :func:`pipe_capacity`.
    area_m2 : above 0, the ground that drains to the pipe.
    rain_mm_h : at least 0, design rain.

    Raises ImpossibleValue outside these ranges.
    Source: Manning equation against the unit identity of inflow.
    """
    require_above("area, m²", area_m2)
    capacity, inflow = pipe_capacity(bore_mm, slope, roughness), drain_inflow(rain_mm_h, area_m2)
    return DrainFlow(inflow, capacity, inflow <= capacity, capacity * SECONDS_PER_HOUR / area_m2)
