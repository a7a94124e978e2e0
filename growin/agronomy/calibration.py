"""What a sprayer or a spreader really puts out."""

from typing import NamedTuple

from growin.agronomy.impossible import require_above, require_range

#: l/min over (km/h x m) to l/ha: 60 min, 10 000 m² in a hectare, 1000 m in a km.
SPRAYER_CONSTANT = 600


class SpreaderRate(NamedTuple):
    """What a spreader laid down."""

    rate_g_m2: float
    rate_kg_ha: float


def sprayer_output(nozzle_l_min: float, speed_km_h: float, nozzle_spacing_m: float) -> float:
    """Spray on each hectare, litres.

    Parameters
    ----------
    nozzle_l_min : at least 0, of one nozzle; or of the whole boom, with
    nozzle_spacing_m : above 0, between nozzles; or the swath.
    speed_km_h : above 0.

    Raises ImpossibleValue outside these ranges.
    Source: University of Florida IFAS Extension WG013; Teagasc crop notes.
    """
    require_range("flow, l/min", nozzle_l_min, 0)
    require_above("speed, km/h", speed_km_h)
    require_above("spacing of the nozzles, m", nozzle_spacing_m)
    return SPRAYER_CONSTANT * nozzle_l_min / (speed_km_h * nozzle_spacing_m)


def spreader_output(collected_g: float, area_m2: float) -> SpreaderRate:
    """Rate of a spreader from what was swept up or caught.

    Parameters
    ----------
    collected_g : at least 0.
    area_m2 : above 0, the ground it was caught from.

    Raises ImpossibleValue outside these ranges.
    Source: North Carolina State Extension, 2017, Calibrating your spreader.
    """
    require_range("product caught, g", collected_g, 0)
    require_above("area, m²", area_m2)
    rate_g_m2 = collected_g / area_m2
    return SpreaderRate(rate_g_m2, rate_g_m2 * 10)
