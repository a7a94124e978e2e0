"""Drains: what a pipe carries when full, and what rain sends to it, l/s."""

import math

from growin.agronomy.defaults import COMMON_PRACTICE, Default, table
from growin.agronomy.impossible import require_above, require_range

DEFAULTS = table(
    Default(
        "drain.roughness", 0.016, "", "Manning n of corrugated plastic pipe", 0.009, 0.03, COMMON_PRACTICE
    ),
)
ROUGHNESS = DEFAULTS["drain.roughness"].value
SECONDS_PER_HOUR = 3600


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
