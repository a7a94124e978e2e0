"""Every sum in words: what it is called, how it goes, what it rests on, and what it is held against.

:data:`FORMULAS` explains the calculations of the catalogue, which worked examples check; their
sources stand in the docstrings of their functions. :data:`FURTHER` names every other public sum and
says what its tests hold it against, or that no published check exists.
"""

import inspect
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from growin.agronomy import (
    amounts,
    area,
    calibration,
    day_water,
    drainage,
    evapotranspiration,
    growth,
    intervals,
    label,
    layering,
    normals,
    nutrition,
    power,
    radiation,
    rootzone,
    rootzone_water,
    sand,
    soil_test,
    student,
    tank,
    units,
    water,
)
from growin.agronomy.catalogue import CATALOGUE

NONE = "No published check exists"
#: Headings of the page by the module of a sum, in their order there.
GROUPS: Mapping[str, str] = {
    "nutrition": "Feeds and nutrients",
    "sand": "Sand, coring and organic matter",
    "growth": "Growth",
    "evapotranspiration": "Water that air and grass ask for",
    "radiation": "Sun and sky",
    "water": "Water in the rootzone",
    "green_speed": "Green speed",
    "mowing": "Mowing and clippings",
    "rootzone": "Rootzone and gravel",
    "intervals": "How sure a handful of readings makes us",
    "seed": "Seed",
    "calibration": "Spreader and sprayer",
    "drainage": "Drains",
    "area": "Area",
}


@dataclass(frozen=True)
class Formula:
    """One calculation of the catalogue: its ``words``, how it goes (``says``), and where no published
    example checks it, what does (``held``)."""

    calculation: str
    words: str
    says: str
    held: str = ""

    @property
    def function(self) -> Callable:
        """The function that does the sum."""
        return CATALOGUE[self.calculation].function

    @property
    def group(self) -> str:
        """Heading it stands under."""
        return GROUPS[self.function.__module__.rpartition(".")[2]]

    @property
    def source(self) -> str:
        """What the formula rests on, as its function says."""
        return source_of(self.function)


@dataclass(frozen=True)
class Further:
    """One sum beside the catalogue, and what its tests hold it against."""

    function: Callable
    held: str

    @property
    def name(self) -> str:
        """Module and name, as the code has it."""
        return f"{self.function.__module__.rpartition('.')[2]}.{self.function.__name__}"

    @property
    def words(self) -> str:
        """What it gives: the first sentence of its docstring."""
        return summary_of(self.function)

    @property
    def source(self) -> str:
        """What it rests on, as its docstring says; empty for what only follows from another sum."""
        return source_of(self.function)


def source_of(function: Callable) -> str:
    """The paragraph after "Source:" in a docstring, in one line, without its full stop."""
    _, found, rest = (inspect.getdoc(function) or "").partition("Source:")
    return " ".join(rest.split("\n\n")[0].split()).removesuffix(".") if found else ""


def summary_of(function: Callable) -> str:
    """The first paragraph of a docstring, in one line, without the marks of the code."""
    words = " ".join((inspect.getdoc(function) or "").split("\n\n")[0].split())
    return re.sub(r":\w+:`~?(?:[\w.]+\.)?(\w+)`", lambda found: found[1].replace("_", " "), words)


FORMULAS: tuple[Formula, ...] = (
    Formula("nutrient_product", "Product for a rate of nutrient",
            "rate of nutrient × 100 ÷ analysis in %; times the area for the whole green"),
    Formula("oxide_to_element", "Elements behind the oxides of a label",
            "oxide × share of the element: P 0.43643, K 0.83015, Mg 0.60304, Ca 0.71470, S 0.40046"),
    Formula("nutrients_supplied", "What a product brought to a hectare",
            "product in kg per hectare × analysis ÷ 100; phosphorus and potassium as elements"),
    Formula("liquid_product", "Litres of a liquid for a rate of nutrient",
            "rate in kg/ha ÷ (density × analysis ÷ 100); a label in % w/v takes a density of 1.0"),
    Formula("nutrient_requirement", "What use and soil test ask for",
            "use of the year + (minimum − soil test) × kg of soil under a m² ÷ 1,000, never below 0"),
    Formula("water_nutrient_load", "What water carries",
            "depth in mm × mg in each litre ÷ 1,000 is g/m²; ten times that is kg/ha"),
    Formula("topdressing", "Sand for a depth",
            "depth in mm × area in m² ÷ 1,000 is m³; times the bulk density it is tonnes"),
    Formula("topdressing_depth", "How deep a dressing lies", "kg/m² ÷ bulk density in t/m³ is mm"),
    Formula("hollow_coring", "What tines open",
            "π × diameter² ÷ 4 ÷ (spacing × spacing of the rows); times the depth it is the fill"),
    Formula("organic_matter_percent", "Organic matter by loss on ignition",
            "(oven-dry mass − ignited mass) ÷ oven-dry mass × 100",
            f"{NONE} with its own figures; its rows are worked by hand from the stated method."),
    Formula("topdressing_dilution", "Organic matter once sand is worked in",
            "organic matter × (depth of the layer − depth of sand) ÷ depth of the layer"),
    Formula("growth_potential", "Growth potential of a day",
            "e^(−½ ((mean temperature − optimum) ÷ spread)²); cool-season grass 20 and 5.5 °C"),
    Formula("growing_degree_days", "Degree days",
            "mean of highest and lowest, held to the upper limit if there is one, − base; never below 0"),
    Formula("reference_evapotranspiration", "Water use of a grass reference by Penman–Monteith",
            "(0.408 Δ (Rn − G) + γ × 900 ÷ (T + 273) × u₂ × (es − ea)) ÷ (Δ + γ (1 + 0.34 u₂))"),
    Formula("hargreaves_evapotranspiration", "Water use from temperatures alone",
            "0.0023 × (mean + 17.8) × √(highest − lowest) × radiation above the air in mm"),
    Formula("psychrometric_constant", "Air pressure and psychrometric constant",
            "101.3 × ((293 − 0.0065 × altitude) ÷ 293)^5.26 kPa; times 0.000665"),
    Formula("vapour_pressure", "Vapour pressure and deficit",
            "e°(T) = 0.6108 e^(17.27 T ÷ (T + 237.3)); saturation is the mean of e° at highest and lowest"),
    Formula("wind_speed_two_metres", "Wind at two metres",
            "wind × 4.87 ÷ ln(67.8 × height of the gauge − 5.42)"),
    Formula("crop_evapotranspiration", "Water use of a sward",
            "reference × crop coefficient × stress coefficient; turf 0.95 cool-season, 0.85 warm-season"),
    Formula("extraterrestrial_radiation", "Radiation above the air",
            "1,440 ÷ π × 0.0820 × dr × (ωs sin φ sin δ + cos φ cos δ sin ωs)"),
    Formula("daylight_hours", "Length of the day", "24 × ωs ÷ π"),
    Formula("solar_radiation", "Radiation at the ground",
            "(0.25 + 0.50 × sunshine ÷ day length) × Ra, or krs × √(highest − lowest) × Ra"),
    Formula("net_radiation", "Radiation that grass keeps",
            "0.77 Rs − σ × mean of T⁴ × (0.34 − 0.14 √ea) × (1.35 Rs ÷ Rso − 0.35)"),
    Formula("available_water", "Water the roots can reach",
            "(field capacity − wilting point) × depth of the roots; times the share taken without stress"),
    Formula("irrigation_depth", "Water to a target moisture",
            "(target − moisture) ÷ 100 × depth of the layer"),
    Formula("soil_water_balance", "The rootzone day by day",
            "depletion − rain − irrigation + water use × stress; what is over field capacity drains"),
    Formula("leaching_requirement", "Water that carries salt away",
            "ECw ÷ (5 ECe − ECw); water use ÷ (1 − that share)"),
    Formula("distribution_uniformity", "Evenness of irrigation",
            "mean of the lowest quarter ÷ mean × 100; 100 × (1 − sum of deviations ÷ sum of catches)"),
    Formula("water_volume", "Volume of a depth of water", "depth in mm × area in m² ÷ 1,000 is m³"),
    Formula("green_speed", "Green speed on a slope", "2 × uphill × downhill ÷ (uphill + downhill)"),
    Formula("green_speed_from_rolls", "Green speed of a level spot", "mean of the means of both directions"),
    Formula("one_third_rule", "When to cut", "height of cut ÷ (1 − ⅓)"),
    Formula("clippings_nitrogen", "What clippings carry away",
            "ml/m² × dry matter in g/ml × leaf content in % ÷ 100"),
    Formula("clipping_volume", "Clippings that a nutrient grows",
            "nutrient × 100 ÷ leaf content in % ÷ dry matter in g/ml"),
    Formula("sieve_diameter", "A size off the grading curve (Dx)",
            "between two sieves the logarithm of size runs straight against % passing"),
    Formula("gravel_suitability", "Gravel under a rootzone",
            "D15 gravel ÷ D85 rootzone ≤ 8; D15 gravel ÷ D15 rootzone ≥ 5; D90 ÷ D15 of the gravel ≤ 3",
            f"{NONE} with worked figures; its rows are worked by hand from the printed limits."),
    Formula("rootzone_grading", "Grading of a rootzone",
            "sums of the classes against their limits, in % by weight",
            f"{NONE} with worked figures; its rows are worked by hand from the printed limits."),
    Formula("mean_interval", "Interval of a mean", "mean ∓ Student's t × standard deviation ÷ √count"),
    Formula("proportion_interval", "Interval of a share",
            "Wilson's score: (p + z²/2n ∓ z √(p(1 − p)/n + z²/4n²)) ÷ (1 + z²/n)"),
    Formula("sample_size", "Readings that are enough", "(t × standard deviation ÷ half-width)²"),
    Formula("pure_live_seed", "Pure live seed", "purity × (germination + hard seed) ÷ 100"),
    Formula("seed_quantity", "Seed to weigh out", "live rate × 100 ÷ pure live seed; times the area"),
    Formula("sprayer_output", "Output of a sprayer", "600 × l/min ÷ (km/h × spacing in m) is l/ha"),
    Formula("spreader_output", "Rate of a spreader", "g caught ÷ m²; ten times that is kg/ha"),
    Formula("pipe_capacity", "A pipe running full",
            "1,000 ÷ n × area of the bore × (bore ÷ 4)^⅔ × √fall, bore in m, is l/s"),
    Formula("drain_inflow", "Rain that comes to a drain", "mm/h × m² ÷ 3,600 is l/s",
            f"{NONE}; its rows follow from the units alone."),
    Formula("area_by_radii", "Area from radii",
            "π × (mean of the radii)²; reads low on anything but a circle"),
    Formula("area_by_offsets", "Area from offsets",
            "spacing × (half the first and last offset + all the others)"),
)  # fmt: skip

_UNITS_PINT = f"{NONE} beyond the definitions; held against the pint library"
_BY_HAND = f"{NONE}; held against figures worked by hand and properties that must hold"
_SCIPY = f"{NONE}; held against scipy"

FURTHER: tuple[Further, ...] = (
    Further(nutrition.element_percent, "Published: the rows of the oxides above."),
    *(Further(one, _BY_HAND) for one in (
        label.read_label, label.contents, label.nitrogen_percent, label.nitrogen_release,
        label.nutrient_mg_m2, label.nutrients_mg_m2, label.half_up,
        amounts.whole_amount, amounts.require_possible, amounts.in_words, amounts.rate_in_words,
        amounts.depth_in_words, amounts.shares, amounts.shares_in_words,
        tank.tank_fill, tank.hopper_fill, tank.part_of_mix, tank.require_room, tank.mix_nutrients_mg_m2,
    )),
    Further(soil_test.minimum_ppm, "Published: the minimums of Woods, September 2014."),
    Further(soil_test.require_same_extractant, _BY_HAND),
    Further(soil_test.requirement_from_test, "Published: the rows of the soil test above."),
    Further(sand.topdressing_mass, f"{NONE}; the reverse of how deep a dressing lies."),
    Further(sand.coring_of_area, _BY_HAND),
    Further(sand.sand_of_season, "Published: 6.2 mm a season is about 99 t/ha (USGA)."),
    Further(growth.mean_temperature, "Published: the rows of the degree days above."),
    Further(growth.degree_days_above, _BY_HAND),
    Further(growth.expected_growth_potential, f"{NONE}; held against quadrature by scipy."),
    Further(growth.expected_degree_days, f"{NONE}; held against quadrature by scipy."),
    Further(growth.require_extremes, _BY_HAND),
    Further(normals.daily_normals, f"{NONE}; every month keeps the mean that was given."),
    Further(normals.monthly_means, _BY_HAND),
    Further(evapotranspiration.saturation_pressure, f"{NONE} of its own; held against the refet library."),
    Further(evapotranspiration.vapour_of_mean_humidity,
            "Published: FAO Irrigation and Drainage Paper 56, Example 5."),
    Further(evapotranspiration.penman_monteith,
            "Published: 5,815 days of a station with their printed water use, within 0.005 mm;"
            " on the 7 of them brighter than a clear sky FAO 56 holds the cloud, the print does not."),
    Further(radiation.clear_sky_radiation, f"{NONE} of its own; it is part of the rows of Penman–Monteith."),
    Further(day_water.reference_of_day, "Published: FAO Irrigation and Drainage Paper 56, Example 18."),
    Further(day_water.krs, _BY_HAND),
    Further(day_water.turf_water_mm, "Published: FAO Irrigation and Drainage Paper 56, Table 12."),
    Further(rootzone_water.store_of, _BY_HAND),
    Further(rootzone_water.standing, f"{NONE} of its own; its days are those of the balance above."),
    Further(rootzone_water.to_give_mm, _BY_HAND),
    Further(water.gross_irrigation, _BY_HAND),
    Further(water.run_minutes, _BY_HAND),
    Further(rootzone.gravel_faults, _BY_HAND),
    Further(rootzone.grading_faults, _BY_HAND),
    Further(rootzone.grading_diameter, _BY_HAND),
    Further(layering.fits_rootzone, _BY_HAND),
    Further(intervals.mean_lower_bound, _SCIPY),
    Further(intervals.mean_upper_bound, _SCIPY),
    Further(intervals.proportion_lower_bound, f"{_SCIPY} and statsmodels"),
    Further(intervals.proportion_upper_bound, f"{_SCIPY} and statsmodels"),
    Further(intervals.readings_for_mean, _BY_HAND),
    Further(intervals.more_readings_for_mean, _BY_HAND),
    Further(intervals.more_readings_for_share, _BY_HAND),
    Further(intervals.describe, _BY_HAND),
    Further(student.t_quantile, _SCIPY),
    Further(student.t_central_share, _SCIPY),
    Further(power.chance_of_at_least, _SCIPY),
    Further(power.chance_none_over, _SCIPY),
    Further(power.fewest_hits, _BY_HAND),
    Further(power.chance_of_cover, _SCIPY),
    Further(calibration.pan_test, _BY_HAND),
    Further(calibration.setting_factor, _BY_HAND),
    Further(calibration.travel_speed_km_h, _BY_HAND),
    Further(calibration.nozzle_test, _BY_HAND),
    Further(drainage.drain_flow, _BY_HAND),
    Further(area.area_by_sectors, f"{NONE}; held against areas known from geometry."),
    Further(area.area_by_polygon, f"{NONE}; held against areas known from geometry."),
    Further(area.compare_radii_methods, f"{NONE}; held against areas known from geometry."),
    *(Further(one, _UNITS_PINT) for one in (
        units.unit_named, units.units_of, units.convert_exactly, units.convert,
    )),
)  # fmt: skip

#: Modules whose every public function stands in one of the two tables above.
SUMS = frozenset(one.function.__module__ for one in (*FORMULAS, *FURTHER))
