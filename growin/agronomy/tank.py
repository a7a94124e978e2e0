"""Tanks and hoppers: how often they are filled for an area, what goes into each, what a mix brings.

Nomenclature: water rates in l/ha, tanks in l, product rates in g or ml on each m² (1 l/ha is
0.1 ml/m²), hoppers in kg, areas in m². Amounts of a ledger are whole g or ml.
"""

import math
from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import NamedTuple

from growin.agronomy.impossible import ImpossibleValue, require_above, require_range
from growin.agronomy.label import nutrients_mg_m2

SQUARE_METRES_PER_HECTARE = 10_000
#: Binary arithmetic may leave a hair of a load over.
HAIR = 1e-9


class Loads(NamedTuple):
    """Filling something for an area: in all, how many full loads, and what is left for the last one."""

    total: float
    full_loads: int
    last_load: float
    area_per_load_m2: float

    @property
    def loads(self) -> int:
        """Number of fillings, a part one counted."""
        return self.full_loads + (self.last_load > 0)


class PartOfMix(NamedTuple):
    """One product of a tank mix, in g or ml: in all, in a full tank and in the last, part one."""

    total: float
    full_tank: float
    last_tank: float


def tank_fill(area_m2: float, water_l_ha: float, tank_l: float) -> Loads:
    """Tanks of spray for an area: litres in all, full tanks, litres of the last, m² to a tank.

    Parameters
    ----------
    area_m2 : at least 0, of a green or of several together.
    water_l_ha : above 0, what the sprayer puts out.
    tank_l : above 0, what one filling holds.

    Raises ImpossibleValue outside these ranges.
    Source: unit identity.
    """
    require_range("area, m²", area_m2, 0)
    require_above("water rate, l/ha", water_l_ha)
    require_above("tank, l", tank_l)
    return _loads(area_m2 * water_l_ha / SQUARE_METRES_PER_HECTARE, tank_l, area_m2)


def hopper_fill(area_m2: float, rate_g_m2: float, hopper_kg: float) -> Loads:
    """Hoppers of granules or sand for an area: kg in all, full hoppers, kg of the last, m² to a hopper.

    Parameters
    ----------
    area_m2 : at least 0.
    rate_g_m2, hopper_kg : above 0.

    Raises ImpossibleValue outside these ranges.
    Source: unit identity.
    """
    require_range("area, m²", area_m2, 0)
    require_above("rate, g/m²", rate_g_m2)
    require_above("hopper, kg", hopper_kg)
    return _loads(area_m2 * rate_g_m2 / 1000, hopper_kg, area_m2)


def part_of_mix(rate_per_m2: float, area_m2: float, fills: Loads) -> PartOfMix:
    """What one product takes of each filling, in g or ml, shared out by the water.

    Parameters
    ----------
    rate_per_m2 : at least 0, g or ml on each m².
    area_m2 : at least 0, the same as in ``fills``.
    fills : from :func:`tank_fill`.

    Raises ImpossibleValue below zero.
    Source: unit identity.
    """
    require_range("rate of product on each m²", rate_per_m2, 0)
    require_range("area, m²", area_m2, 0)
    total = rate_per_m2 * area_m2
    last = total * fills.last_load / fills.total if fills.total else 0.0
    full = (total - last) / fills.full_loads if fills.full_loads else 0.0
    return PartOfMix(total, full, last)


def require_room(liquids_ml: Iterable[float], spray_l: float) -> None:
    """Refuse liquid products that are more than the whole spray.

    Raises
    ------
    ImpossibleValue
        With the litres of product and the litres of spray they have to fit in.
    """
    product_l = sum(liquids_ml) / 1000
    if product_l > spray_l * (1 + HAIR):
        raise ImpossibleValue(
            "products together, l", round(product_l, 2), f"less than the {spray_l:g} l of spray"
        )


def mix_nutrients_mg_m2(parts: Iterable[tuple[int, Mapping[str, Decimal]]], area_dm2: int) -> dict[str, int]:
    """Every element of a tank mix on each square metre, whole mg/m²: the sum of its products.

    Parameters
    ----------
    parts : for each product its amount over the whole area, whole g or ml, and its contents
        from :func:`growin.agronomy.label.contents`.
    area_dm2 : at least 1.

    Raises ImpossibleValue as :func:`growin.agronomy.label.nutrient_mg_m2`.
    Source: unit identity; each product is rounded by itself, as the ledger keeps it.
    """
    sums: dict[str, int] = {}
    for amount, contents in parts:
        for element, mg_m2 in nutrients_mg_m2(amount, area_dm2, contents).items():
            sums[element] = sums.get(element, 0) + mg_m2
    return sums


def _loads(total: float, holds: float, area_m2: float) -> Loads:
    full = math.floor(total / holds + HAIR)
    last = total - full * holds
    per_load = area_m2 * holds / total if total else 0.0
    return Loads(total, full, last if last > holds * HAIR else 0.0, per_load)
