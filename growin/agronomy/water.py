"""Water in the rootzone: what it holds, what to give, how it runs down, how evenly it falls.

Nomenclature: depths of water in mm (1 mm = 1 litre on each square metre), moisture in %
by volume or m³/m³, depletion = mm below field capacity, conductivity in dS/m.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from growin.agronomy.impossible import ImpossibleValue, require_above, require_range, require_same_length


class AvailableWater(NamedTuple):
    """Water roots can reach: all of it, and the part they take without stress, mm."""

    total_mm: float
    readily_mm: float


class WaterBalance(NamedTuple):
    """One value a day: stress (1 none, 0 all), water used, drained, and depletion at the end of the day."""

    stress_coefficient: list[float]
    actual_evapotranspiration_mm: list[float]
    deep_percolation_mm: list[float]
    depletion_mm: list[float]


class Leaching(NamedTuple):
    """Share of the water that has to pass the roots, and the water to give with it."""

    leaching_fraction: float
    water_mm: float


class Uniformity(NamedTuple):
    """How evenly sprinklers throw, % (100 is even)."""

    lower_quarter_percent: float
    christiansen_percent: float


def available_water(
    field_capacity_m3_m3: float, wilting_point_m3_m3: float, root_depth_mm: float, depletion_fraction: float
) -> AvailableWater:
    """Water a rootzone holds for its grass, mm.

    Parameters
    ----------
    field_capacity_m3_m3 : 0 to 1, and at least the wilting point (0 to 1).
    root_depth_mm : at least 0.
    depletion_fraction : 0 to 1, share that roots take without stress.

    Raises ImpossibleValue outside these ranges.
    Source: FAO Irrigation and Drainage Paper 56, Eq. 82 and 83.
    """
    require_range("wilting point, m³/m³", wilting_point_m3_m3, 0, 1)
    require_range("field capacity, m³/m³", field_capacity_m3_m3, wilting_point_m3_m3, 1)
    require_range("depth of roots, mm", root_depth_mm, 0)
    require_range("share taken without stress", depletion_fraction, 0, 1)
    total_mm = (field_capacity_m3_m3 - wilting_point_m3_m3) * root_depth_mm
    return AvailableWater(total_mm, total_mm * depletion_fraction)


def irrigation_depth(moisture_percent: float, target_percent: float, depth_mm: float) -> float:
    """Water that lifts a layer to its target moisture, mm, never below zero.

    Parameters
    ----------
    moisture_percent, target_percent : 0 to 100 by volume.
    depth_mm : at least 0, depth of the layer.

    Raises ImpossibleValue outside these ranges.
    Source: unit identity.
    """
    require_range("moisture, %", moisture_percent, 0, 100)
    require_range("target moisture, %", target_percent, 0, 100)
    require_range("depth of the layer, mm", depth_mm, 0)
    return max(0.0, (target_percent - moisture_percent) / 100 * depth_mm)


def soil_water_balance(
    initial_depletion_mm: float,
    total_available_mm: Sequence[float],
    readily_available_mm: Sequence[float],
    rain_mm: Sequence[float],
    irrigation_mm: Sequence[float],
    crop_evapotranspiration_mm: Sequence[float],
) -> WaterBalance:
    """Water of a rootzone day by day, water coming early in the day.

    Rain and irrigation first make up yesterday's depletion, any excess drains; the stress
    coefficient is 1 while the rest is within the readily available water and falls
    straight to 0 at the total; evapotranspiration times stress is then taken, at most
    what is left. What is not there is not used, so the days add up.

    Parameters
    ----------
    initial_depletion_mm : 0 to the total of the first day.
    lists of equal length, at least 0 each: total and readily available water (at most the
    total), rain, irrigation, crop evapotranspiration.

    Raises ImpossibleValue outside these ranges.
    Source: FAO Irrigation and Drainage Paper 56, Eq. 84 to 88, as in its Example 38.
    """
    days = total_available_mm, readily_available_mm, rain_mm, irrigation_mm, crop_evapotranspiration_mm
    _require_days(initial_depletion_mm, *days)
    depletion_mm, ends = initial_depletion_mm, []
    for total, readily, rain, irrigation, asked in zip(*days, strict=True):
        ends.append(_day(depletion_mm, total, readily, rain + irrigation, asked))
        depletion_mm = ends[-1][-1]
    return WaterBalance(*(list(column) for column in zip(*ends, strict=True)))


def leaching_requirement(
    water_conductivity_ds_m: float, soil_threshold_ds_m: float, evapotranspiration_mm: float
) -> Leaching:
    """Extra water that keeps salt below what the grass bears.

    Parameters
    ----------
    water_conductivity_ds_m : at least 0.
    soil_threshold_ds_m : above 0, saturated extract; more than two fifths of the water's.
    evapotranspiration_mm : at least 0.

    Raises ImpossibleValue outside these ranges: saltier water cannot leach so little.
    Source: Ayers & Westcot, Water quality for agriculture, FAO Irrigation and Drainage Paper 29.
    """
    require_range("conductivity of the water, dS/m", water_conductivity_ds_m, 0)
    require_above("threshold of the grass, dS/m", soil_threshold_ds_m)
    require_range("evapotranspiration, mm", evapotranspiration_mm, 0)
    require_above("threshold of the grass, dS/m", soil_threshold_ds_m, 0.4 * water_conductivity_ds_m)
    fraction = water_conductivity_ds_m / (5 * soil_threshold_ds_m - water_conductivity_ds_m)
    return Leaching(fraction, evapotranspiration_mm / (1 - fraction))


def distribution_uniformity(catch_ml: Sequence[float]) -> Uniformity:
    """Evenness of irrigation from catch cans, %, by lowest quarter and by Christiansen.

    The quarter is the count over four, rounded to whole cans (halves up), at least one.

    Parameters
    ----------
    catch_ml : at least 0 each, at least two, not all empty; any unit, only ratios count.

    Raises ImpossibleValue outside these ranges.
    Source: Keller & Bliesner, Sprinkle and trickle irrigation; Christiansen, 1942.
    """
    if len(catch_ml) < 2:
        raise ImpossibleValue("number of cans", len(catch_ml), "at least 2")
    require_range("catch", catch_ml, 0)
    catch = np.sort(np.asarray(catch_ml, dtype=float))
    require_above("mean of the catches", catch.mean())
    quarter = max(1, int(len(catch) / 4 + 0.5))
    spread = np.abs(catch - catch.mean()).sum() / catch.sum()
    return Uniformity(float(catch[:quarter].mean() / catch.mean() * 100), float(100 * (1 - spread)))


def gross_irrigation(net_mm: float, lower_quarter_percent: float) -> float:
    """Water to put on so that the driest quarter gets what is needed, mm.

    Parameters
    ----------
    net_mm : at least 0, what the roots should get.
    lower_quarter_percent : above 0 to 100, evenness by the lowest quarter.

    Raises ImpossibleValue outside these ranges.
    Source: Keller & Bliesner, Sprinkle and trickle irrigation.
    """
    require_range("water needed, mm", net_mm, 0)
    require_above("evenness, %", lower_quarter_percent)
    require_range("evenness, %", lower_quarter_percent, 0, 100)
    return net_mm * 100 / lower_quarter_percent


def run_minutes(depth_mm: float, precipitation_mm_h: float) -> float:
    """Minutes that heads of a given output need for a depth of water.

    ``depth_mm`` at least 0, ``precipitation_mm_h`` above 0. Raises ImpossibleValue otherwise.
    Source: unit identity.
    """
    require_range("depth of water, mm", depth_mm, 0)
    require_above("output of the heads, mm/h", precipitation_mm_h)
    return depth_mm / precipitation_mm_h * 60


def water_volume(depth_mm: float, area_m2: float) -> float:
    """Volume of a depth of water over an area, m³; both at least 0.

    Raises ImpossibleValue below zero.
    Source: unit identity (1 mm = 1 litre on each square metre).
    """
    require_range("depth of water, mm", depth_mm, 0)
    require_range("area, m²", area_m2, 0)
    return depth_mm * area_m2 / 1000


def _day(depletion: float, total: float, readily: float, water: float, asked: float) -> tuple[float, ...]:
    """Stress, use, drainage and closing depletion of one day."""
    drained = max(0.0, water - depletion)
    opening = min(total, max(0.0, depletion - water))
    stress = 1.0 if opening <= readily else (total - opening) / (total - readily)
    used = min(asked * stress, total - opening)
    return stress, used, drained, opening + used


def _require_days(initial: float, total, readily, rain, irrigation, asked) -> None:
    require_same_length("days of the balance", total, readily, rain, irrigation, asked)
    if not len(total):
        raise ImpossibleValue("number of days", 0, "at least 1")
    for what, series in (
        ("total available water, mm", total),
        ("readily available water, mm", readily),
        ("rain, mm", rain),
        ("irrigation, mm", irrigation),
        ("crop evapotranspiration, mm", asked),
    ):
        require_range(what, series, 0)
    require_range("depletion at the start, mm", initial, 0, total[0])
    surplus = np.subtract(readily, total)
    if (surplus > 0).any():
        worst = int(np.argmax(surplus))
        raise ImpossibleValue(
            "readily available water, mm", readily[worst], f"at most the total of {total[worst]}"
        )
