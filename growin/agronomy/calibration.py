"""What a sprayer or a spreader really puts out, from catch tests, against what it should."""

from collections.abc import Sequence
from statistics import fmean, pstdev
from typing import NamedTuple

from growin.agronomy.defaults import COMMON_PRACTICE, Default, table
from growin.agronomy.impossible import ImpossibleValue, require_above, require_range

DEFAULTS = table(
    Default(
        "calibration.nozzle_off_percent", 10, "%", "flow of a nozzle off the mean of all, most", 2, 30,
        COMMON_PRACTICE, "change a nozzle that is 10 % off",
    ),
    Default(
        "calibration.rate_off_percent", 5, "%", "rate off the one wanted, most", 1, 20, COMMON_PRACTICE
    ),
    Default(
        "calibration.uneven_percent", 20, "%", "unevenness across the pans, most", 5, 50, COMMON_PRACTICE
    ),
)  # fmt: skip
NOZZLE_OFF_PERCENT = DEFAULTS["calibration.nozzle_off_percent"].value

#: l/min over (km/h x m) to l/ha: 60 min, 10 000 m² in a hectare, 1000 m in a km.
SPRAYER_CONSTANT = 600


class SpreaderRate(NamedTuple):
    """What a spreader laid down."""

    rate_g_m2: float
    rate_kg_ha: float


class Pans(NamedTuple):
    """A catch test: mean rate under the pans and how unevenly it fell (standard deviation, % of the mean)."""

    rate_g_m2: float
    rate_kg_ha: float
    uneven_percent: float


class Nozzles(NamedTuple):
    """A catch test of nozzles: mean and sum of their flows, and which (from 1) are off the mean."""

    mean_l_min: float
    boom_l_min: float
    off: tuple[int, ...]


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


def pan_test(collected_g: Sequence[float], pan_area_m2: float) -> Pans:
    """Rate and evenness of a spreader from pans set across its swath.

    Parameters
    ----------
    collected_g : at least 0 each, one or more pans, not all empty.
    pan_area_m2 : above 0, of one pan.

    Raises ImpossibleValue outside these ranges.
    Source: university extension spreader calibration (pans across the swath); evenness as the
    coefficient of variation of all pans.
    """
    if not len(collected_g):
        raise ImpossibleValue("number of pans", 0, "at least 1")
    require_range("product in a pan, g", collected_g, 0)
    require_above("area of a pan, m²", pan_area_m2)
    mean_g = fmean(collected_g)
    require_above("mean of the pans, g", mean_g)
    rate = spreader_output(mean_g, pan_area_m2)
    return Pans(*rate, 100 * pstdev(collected_g) / mean_g)


def setting_factor(wanted: float, delivered: float) -> float:
    """By how much to open the spreader further (or drive slower) to get from one rate to another.

    Above 1 more is wanted. Both above 0, in one unit.

    Raises ImpossibleValue otherwise.
    Source: rule of three.
    """
    require_above("rate wanted", wanted)
    require_above("rate delivered", delivered)
    return wanted / delivered


def travel_speed_km_h(distance_m: float, seconds: float) -> float:
    """Speed over a paced distance, km/h; both above 0.

    Raises ImpossibleValue otherwise.
    Source: unit identity.
    """
    require_above("distance, m", distance_m)
    require_above("time, s", seconds)
    return distance_m / seconds * 3.6


def nozzle_test(
    caught_ml: Sequence[float], seconds: float, off_percent: float = NOZZLE_OFF_PERCENT
) -> Nozzles:
    """Flow of the nozzles of a boom from what each gave in so many seconds.

    Parameters
    ----------
    caught_ml : at least 0 each, one or more nozzles, not all dry.
    seconds : above 0.
    off_percent : at least 0; a nozzle farther off the mean is named.

    Raises ImpossibleValue outside these ranges.
    Source: university extension sprayer calibration (change nozzles 10 % off the mean).
    """
    if not len(caught_ml):
        raise ImpossibleValue("number of nozzles", 0, "at least 1")
    require_range("caught under a nozzle, ml", caught_ml, 0)
    require_above("time of the catch, s", seconds)
    require_range("nozzle off the mean, %", off_percent, 0)
    mean_ml = fmean(caught_ml)
    require_above("mean of the nozzles, ml", mean_ml)
    off = [abs(one / mean_ml - 1) * 100 > off_percent + 1e-9 for one in caught_ml]
    mean_l_min = mean_ml / 1000 / seconds * 60
    return Nozzles(mean_l_min, mean_l_min * len(caught_ml), tuple(n for n, one in enumerate(off, 1) if one))
