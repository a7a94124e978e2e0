"""Nutrients: from a rate to a product and back, oxides to elements, what soil and water hold.

Nomenclature: rates in g/m² (1 g/m² = 10 kg/ha), analyses in per cent by weight,
products in kg or litres, soil tests in ppm (mg of nutrient per kg of dry soil).
"""

from decimal import Decimal
from typing import NamedTuple

from growin.agronomy.impossible import ImpossibleValue, require_above, require_range

#: Mass share of the element in its oxide, from standard atomic masses; Regulation (EC) 2003/2003.
OXIDES: dict[str, tuple[str, Decimal]] = {
    "P2O5": ("P", Decimal("0.43643")),
    "K2O": ("K", Decimal("0.83015")),
    "MgO": ("Mg", Decimal("0.60304")),
    "CaO": ("Ca", Decimal("0.71470")),
    "SO3": ("S", Decimal("0.40046")),
}
#: Highest figure a label can print, %: pure sulphur declared as SO3 reads about 250.
HIGHEST_PRINTED_PERCENT = {"SO3": 250.0}
SQUARE_METRES_PER_HECTARE = 10_000
KG_HA_PER_G_M2 = 10
MG_M2_PER_KG_HA = 100


class ProductNeeded(NamedTuple):
    """A solid product: g on each square metre, kg on the whole area."""

    product_g_m2: float
    product_kg: float


class LiquidNeeded(NamedTuple):
    """A liquid product: litres on the whole area, litres per hectare."""

    product_l: float
    product_l_ha: float


class Elements(NamedTuple):
    """Elements in per cent by weight; None where the oxide was not given."""

    p_percent: float | None = None
    k_percent: float | None = None
    mg_percent: float | None = None
    ca_percent: float | None = None
    s_percent: float | None = None


class NutrientsSupplied(NamedTuple):
    """What one application brought, kg/ha, phosphorus and potassium as elements."""

    n_kg_ha: float
    p_kg_ha: float
    k_kg_ha: float


class WaterLoad(NamedTuple):
    """What a depth of water carries, per square metre and per hectare."""

    load_g_m2: float
    load_kg_ha: float


def nutrient_product(nutrient_percent: float, rate_g_m2: float, area_m2: float) -> ProductNeeded:
    """Solid product that carries a rate of nutrient.

    Parameters
    ----------
    nutrient_percent : above 0 to 100, share of the nutrient in the product by weight.
    rate_g_m2 : at least 0, nutrient wanted, in the same form as the analysis.
    area_m2 : at least 0.

    Raises ImpossibleValue outside these ranges.
    Source: university extension fertiliser arithmetic (Purdue, Massachusetts, Penn State).
    """
    _require_analysis(nutrient_percent)
    require_range("rate of nutrient, g/m²", rate_g_m2, 0)
    require_range("area, m²", area_m2, 0)
    product_g_m2 = rate_g_m2 * 100 / nutrient_percent
    return ProductNeeded(product_g_m2, product_g_m2 * area_m2 / 1000)


def liquid_product(
    nutrient_percent: float, density_kg_l: float, rate_g_m2: float, area_m2: float
) -> LiquidNeeded:
    """Litres of a liquid product that carry a rate of nutrient.

    Parameters
    ----------
    nutrient_percent : above 0 to 100. By weight (w/w) with the density of the product;
        by volume (w/v, g in 100 ml) with a density of 1.0, which the label already holds.
    density_kg_l : above 0 to 3.
    rate_g_m2, area_m2 : at least 0.

    Raises ImpossibleValue outside these ranges.
    Source: Purdue University Extension, turf fertiliser arithmetic.
    """
    _require_analysis(nutrient_percent)
    require_above("density, kg/l", density_kg_l)
    require_range("density, kg/l", density_kg_l, 0, 3)
    require_range("rate of nutrient, g/m²", rate_g_m2, 0)
    require_range("area, m²", area_m2, 0)
    product_l_ha = rate_g_m2 * KG_HA_PER_G_M2 / (density_kg_l * nutrient_percent / 100)
    return LiquidNeeded(product_l_ha * area_m2 / SQUARE_METRES_PER_HECTARE, product_l_ha)


def element_percent(oxide: str, percent: float) -> float:
    """Share of the element when a label prints its oxide, both in % by weight.

    Raises ImpossibleValue for an oxide not in :data:`OXIDES` or a share outside 0 to 100
    (SO3: 250, because pure sulphur may be declared so).
    Source: standard atomic masses; Regulation (EC) 2003/2003.
    """
    if oxide not in OXIDES:
        raise ImpossibleValue("oxide on the label", oxide, f"one of {', '.join(OXIDES)}")
    require_range(f"{oxide}, %", percent, 0, HIGHEST_PRINTED_PERCENT.get(oxide, 100.0))
    return percent * float(OXIDES[oxide][1])


def oxide_to_element(
    p2o5_percent: float | None = None,
    k2o_percent: float | None = None,
    mgo_percent: float | None = None,
    cao_percent: float | None = None,
    so3_percent: float | None = None,
) -> Elements:
    """Elements for the oxides of a label, % by weight; None stays None.

    Raises ImpossibleValue for a share outside 0 to 100 (SO3: 250).
    Source: standard atomic masses; Regulation (EC) 2003/2003.
    """
    printed = zip(OXIDES, (p2o5_percent, k2o_percent, mgo_percent, cao_percent, so3_percent), strict=True)
    return Elements(*(None if share is None else element_percent(oxide, share) for oxide, share in printed))


def nutrients_supplied(
    product_kg: float, area_m2: float, n_percent: float, p2o5_percent: float, k2o_percent: float
) -> NutrientsSupplied:
    """What a spread product brought, kg/ha, phosphorus and potassium as elements.

    Parameters
    ----------
    product_kg : at least 0, spread over the whole area.
    area_m2 : above 0.
    n_percent, p2o5_percent, k2o_percent : 0 to 100 each, as printed on the label.

    Raises ImpossibleValue outside these ranges.
    Source: university extension fertiliser arithmetic.
    """
    require_range("product, kg", product_kg, 0)
    require_above("area, m²", area_m2)
    require_range("N, %", n_percent, 0, 100)
    shares = n_percent, element_percent("P2O5", p2o5_percent), element_percent("K2O", k2o_percent)
    product_kg_ha = product_kg * SQUARE_METRES_PER_HECTARE / area_m2
    return NutrientsSupplied(*(product_kg_ha * share / 100 for share in shares))


def nutrient_requirement(
    annual_use_g_m2: float,
    minimum_ppm: float,
    soil_test_ppm: float,
    depth_mm: float,
    bulk_density_kg_m3: float,
) -> float:
    """Nutrient to apply in a year so that the soil ends at its minimum, g/m², never below zero.

    Use plus the shortfall of the test (less its surplus) times the mass of soil, which in
    kg/m² is depth in metres times bulk density. Minimum and test must come from the same
    extractant.

    Parameters
    ----------
    annual_use_g_m2, minimum_ppm, soil_test_ppm : at least 0.
    depth_mm : above 0, depth of the sample.
    bulk_density_kg_m3 : above 0 to 2650 (quartz without pores).

    Raises ImpossibleValue outside these ranges.
    Source: Woods, advisory articles 2014-2020.
    """
    require_range("use of the year, g/m²", annual_use_g_m2, 0)
    require_range("minimum in the soil, ppm", minimum_ppm, 0)
    require_range("soil test, ppm", soil_test_ppm, 0)
    require_above("depth of the sample, mm", depth_mm)
    require_above("bulk density, kg/m³", bulk_density_kg_m3)
    require_range("bulk density, kg/m³", bulk_density_kg_m3, 0, 2650)
    soil_kg_m2 = depth_mm / 1000 * bulk_density_kg_m3
    return max(0.0, annual_use_g_m2 + (minimum_ppm - soil_test_ppm) * soil_kg_m2 / 1000)


def water_nutrient_load(depth_mm: float, concentration_mg_l: float) -> WaterLoad:
    """What irrigation or rain carries: 1 mm of water is 1 litre on each square metre.

    Parameters
    ----------
    depth_mm, concentration_mg_l : at least 0.

    Raises ImpossibleValue below zero.
    Source: unit identity.
    """
    require_range("depth of water, mm", depth_mm, 0)
    require_range("concentration, mg/l", concentration_mg_l, 0)
    load_g_m2 = depth_mm * concentration_mg_l / 1000
    return WaterLoad(load_g_m2, load_g_m2 * KG_HA_PER_G_M2)


def _require_analysis(nutrient_percent: float) -> None:
    """Refuse an analysis nothing can be carried by."""
    require_above("analysis, %", nutrient_percent)
    require_range("analysis, %", nutrient_percent, 0, 100)
