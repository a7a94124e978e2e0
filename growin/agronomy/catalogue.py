"""The calculations by name: what a row of a check-sheet asks for, and what it gets.

Each name stands for one function of this package. Its inputs are the function's
arguments, its outputs the fields of the function's answer, or one named output where the
answer is a plain number.
"""

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from numbers import Real
from typing import Any

import numpy as np

from growin.agronomy import (
    area,
    calibration,
    drainage,
    evapotranspiration,
    green_speed,
    growth,
    intervals,
    mowing,
    nutrition,
    radiation,
    rootzone,
    sand,
    seed,
    water,
)
from growin.agronomy.impossible import ImpossibleValue

Outputs = dict[str, Any]


@dataclass(frozen=True)
class Calculation:
    """One named calculation: its function, and the name of its output where that is one number."""

    function: Callable[..., Any]
    output: str = ""

    def __call__(self, **inputs: Any) -> Outputs:
        """Outputs by name, plain numbers, lists and true or false; what is None is left out, in and out.

        Raises ImpossibleValue for missing or unknown inputs, one that is no number, and
        whatever the function itself refuses.
        """
        given = {key: value for key, value in inputs.items() if value is not None}
        _require_inputs(self.function, given)
        answer = self.function(**given)
        named = {self.output: answer} if self.output else answer._asdict()
        return {key: _plain(value) for key, value in named.items() if value is not None}


CATALOGUE: dict[str, Calculation] = {
    "nutrient_product": Calculation(nutrition.nutrient_product),
    "oxide_to_element": Calculation(nutrition.oxide_to_element),
    "nutrients_supplied": Calculation(nutrition.nutrients_supplied),
    "liquid_product": Calculation(nutrition.liquid_product),
    "nutrient_requirement": Calculation(nutrition.nutrient_requirement, "requirement_g_m2"),
    "water_nutrient_load": Calculation(nutrition.water_nutrient_load),
    "topdressing": Calculation(sand.topdressing),
    "topdressing_depth": Calculation(sand.topdressing_depth, "depth_mm"),
    "hollow_coring": Calculation(sand.hollow_coring),
    "organic_matter_percent": Calculation(sand.organic_matter_percent, "organic_matter_percent"),
    "topdressing_dilution": Calculation(sand.topdressing_dilution, "organic_matter_percent"),
    "growth_potential": Calculation(growth.growth_potential, "growth_potential"),
    "growing_degree_days": Calculation(growth.growing_degree_days, "degree_days_c"),
    "reference_evapotranspiration": Calculation(
        evapotranspiration.reference_evapotranspiration, "et0_mm_day"
    ),
    "hargreaves_evapotranspiration": Calculation(
        evapotranspiration.hargreaves_evapotranspiration, "et0_mm_day"
    ),
    "extraterrestrial_radiation": Calculation(radiation.extraterrestrial_radiation, "radiation_mj_m2_day"),
    "daylight_hours": Calculation(radiation.daylight_hours, "daylight_h"),
    "solar_radiation": Calculation(radiation.solar_radiation, "radiation_mj_m2_day"),
    "net_radiation": Calculation(radiation.net_radiation),
    "psychrometric_constant": Calculation(evapotranspiration.psychrometric_constant),
    "vapour_pressure": Calculation(evapotranspiration.vapour_pressure),
    "wind_speed_two_metres": Calculation(evapotranspiration.wind_speed_two_metres, "wind_two_metres_m_s"),
    "crop_evapotranspiration": Calculation(evapotranspiration.crop_evapotranspiration, "etc_mm_day"),
    "available_water": Calculation(water.available_water),
    "irrigation_depth": Calculation(water.irrigation_depth, "irrigation_mm"),
    "soil_water_balance": Calculation(water.soil_water_balance),
    "leaching_requirement": Calculation(water.leaching_requirement),
    "distribution_uniformity": Calculation(water.distribution_uniformity),
    "water_volume": Calculation(water.water_volume, "volume_m3"),
    "green_speed": Calculation(green_speed.green_speed, "level_m"),
    "green_speed_from_rolls": Calculation(green_speed.green_speed_from_rolls),
    "one_third_rule": Calculation(mowing.one_third_rule, "mow_at_mm"),
    "clippings_nitrogen": Calculation(mowing.clippings_nitrogen),
    "clipping_volume": Calculation(mowing.clipping_volume),
    "sieve_diameter": Calculation(rootzone.sieve_diameter, "diameter_mm"),
    "gravel_suitability": Calculation(rootzone.gravel_suitability),
    "rootzone_grading": Calculation(rootzone.rootzone_grading),
    "mean_interval": Calculation(intervals.mean_interval),
    "proportion_interval": Calculation(intervals.proportion_interval),
    "sample_size": Calculation(intervals.sample_size),
    "pure_live_seed": Calculation(seed.pure_live_seed),
    "seed_quantity": Calculation(seed.seed_quantity),
    "sprayer_output": Calculation(calibration.sprayer_output, "output_l_ha"),
    "spreader_output": Calculation(calibration.spreader_output),
    "pipe_capacity": Calculation(drainage.pipe_capacity, "flow_l_s"),
    "drain_inflow": Calculation(drainage.drain_inflow, "flow_l_s"),
    "area_by_radii": Calculation(area.area_by_radii, "area_m2"),
    "area_by_offsets": Calculation(area.area_by_offsets, "area_m2"),
}


def calculate(name: str, inputs: Mapping[str, Any]) -> Outputs:
    """Outputs of a named calculation.

    Raises ImpossibleValue for a name not in :data:`CATALOGUE`, and as
    :meth:`Calculation.__call__`.
    """
    if name not in CATALOGUE:
        raise ImpossibleValue("calculation", name, "one of the catalogue's names")
    return CATALOGUE[name](**inputs)


def _require_inputs(function: Callable[..., Any], inputs: Mapping[str, Any]) -> None:
    taken = inspect.signature(function).parameters
    unknown = [key for key in inputs if key not in taken]
    if unknown:
        raise ImpossibleValue("input", unknown[0], f"one of {', '.join(taken)}")
    needed = (key for key, one in taken.items() if one.default is inspect.Parameter.empty)
    missing = [key for key in needed if key not in inputs]
    if missing:
        raise ImpossibleValue(missing[0], "nothing", "given")
    for key, value in inputs.items():
        _require_numbers(key, value)


def _require_numbers(key: str, value: Any) -> None:
    """Refuse what is neither a number, a list of numbers, nor the word of a method."""
    if key == "method":
        return
    for one in value if isinstance(value, list | tuple) else [value]:
        if isinstance(one, bool) or not isinstance(one, Real):
            raise ImpossibleValue(key, repr(one), "a number, or a list of numbers")


def _plain(value: Any) -> Any:
    """Numpy's numbers and arrays as Python's own."""
    return value.tolist() if isinstance(value, np.generic | np.ndarray) else value
