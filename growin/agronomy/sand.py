"""Sand: depth, volume and mass of a dressing, what tines open, what the surface layer holds.

Nomenclature: depths in mm (1 mm on 1 m² is 1 litre), mass in kg/m² or t, bulk density in
t/m³ (the same number as kg/l), organic matter in % by weight.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

from growin.agronomy.defaults import COMMON_PRACTICE, Default, table
from growin.agronomy.impossible import ImpossibleValue, require_above, require_range

DEFAULTS = table(
    Default(
        "sand.bulk_density_t_m3",
        1.6,
        "t/m³",
        "bulk density of dry dressing sand",
        1.2,
        1.9,
        COMMON_PRACTICE,
        "1 mm of sand is about 16 t/ha",
    ),
)
BULK_DENSITY_T_M3 = DEFAULTS["sand.bulk_density_t_m3"].value
#: Mass of quartz without pores, t/m³: no dry sand is heavier.
HEAVIEST_SAND_T_M3 = 2.65
#: Round holes that only touch open at most pi/sqrt(12) of the ground (Lagrange: densest lattice of circles).
DENSEST_HOLES_PERCENT = 90.69
SQUARE_MILLIMETRES_PER_M2 = 1_000_000


class Sand(NamedTuple):
    """Sand for an area: loose volume and dry mass."""

    volume_m3: float
    mass_t: float


class Coring(NamedTuple):
    """What a pattern of tines does; ``fill_m3_per_100_m2`` is None without a depth."""

    surface_percent: float
    holes_per_m2: float
    fill_m3_per_100_m2: float | None = None


class Cores(NamedTuple):
    """Coring of an area: m³ of cores to carry off, and the sand that fills the holes, m³ and t."""

    removed_m3: float
    fill_m3: float
    fill_t: float


class SandOfSeason(NamedTuple):
    """Dressings of a season together: passes, kg/m², mm deep, t/ha."""

    passes: int
    mass_kg_m2: float
    depth_mm: float
    mass_t_ha: float


def topdressing(depth_mm: float, area_m2: float, bulk_density_t_m3: float = BULK_DENSITY_T_M3) -> Sand:
    """Sand for a depth over an area.

    Parameters
    ----------
    depth_mm, area_m2 : at least 0.
    bulk_density_t_m3 : above 0 to 2.65, dry and loose.

    Raises ImpossibleValue outside these ranges.
    Source: unit identity.
    """
    require_range("depth of sand, mm", depth_mm, 0)
    require_range("area, m²", area_m2, 0)
    _require_bulk_density(bulk_density_t_m3)
    volume_m3 = depth_mm * area_m2 / 1000
    return Sand(volume_m3, volume_m3 * bulk_density_t_m3)


def topdressing_depth(mass_kg_m2: float, bulk_density_t_m3: float = BULK_DENSITY_T_M3) -> float:
    """Depth that a mass of sand makes, mm.

    Parameters
    ----------
    mass_kg_m2 : at least 0.
    bulk_density_t_m3 : above 0 to 2.65.

    Raises ImpossibleValue outside these ranges.
    Source: unit identity.
    """
    require_range("sand, kg/m²", mass_kg_m2, 0)
    _require_bulk_density(bulk_density_t_m3)
    return mass_kg_m2 / bulk_density_t_m3


def topdressing_mass(depth_mm: float, bulk_density_t_m3: float = BULK_DENSITY_T_M3) -> float:
    """Mass of sand that makes a depth, kg/m²; the reverse of :func:`topdressing_depth`.

    Raises ImpossibleValue for a depth below 0 or a bulk density outside 0 to 2.65.
    """
    require_range("depth of sand, mm", depth_mm, 0)
    _require_bulk_density(bulk_density_t_m3)
    return depth_mm * bulk_density_t_m3


def hollow_coring(
    tine_diameter_mm: float, spacing_mm: float, row_spacing_mm: float, depth_mm: float | None = None
) -> Coring:
    """Share of the surface that tines open, holes per square metre and the sand that fills them.

    Parameters
    ----------
    tine_diameter_mm : above 0; the inside diameter tells the material removed, the outside
        one the surface disturbed.
    spacing_mm, row_spacing_mm : above 0, between holes in a row and between rows.
    depth_mm : at least 0, only for the fill (m³ on 100 m²).

    Raises ImpossibleValue outside these ranges and where the holes would run into each other.
    Source: USGA Green Section aeration chart (Hartwiger & O'Brien, 2001).
    """
    require_above("diameter of the tine, mm", tine_diameter_mm)
    require_above("spacing of the holes, mm", spacing_mm)
    require_above("spacing of the rows, mm", row_spacing_mm)
    cell_mm2 = spacing_mm * row_spacing_mm
    surface_percent = 100 * math.pi * tine_diameter_mm**2 / 4 / cell_mm2
    if surface_percent > DENSEST_HOLES_PERCENT:
        raise ImpossibleValue(
            "diameter of the tine, mm", tine_diameter_mm, f"small enough for one hole in {cell_mm2:g} mm²"
        )
    return Coring(surface_percent, SQUARE_MILLIMETRES_PER_M2 / cell_mm2, _fill(surface_percent, depth_mm))


def coring_of_area(
    inside_diameter_mm: float,
    spacing_mm: float,
    row_spacing_mm: float,
    depth_mm: float,
    area_m2: float,
    bulk_density_t_m3: float = BULK_DENSITY_T_M3,
) -> Cores:
    """Cores that hollow tines bring up from an area, and the sand that fills the holes to the top.

    Parameters
    ----------
    inside_diameter_mm, spacing_mm, row_spacing_mm : above 0, as :func:`hollow_coring`.
    depth_mm, area_m2 : at least 0.
    bulk_density_t_m3 : above 0 to 2.65, of the sand.

    Raises ImpossibleValue outside these ranges.
    Source: USGA Green Section aeration chart (Hartwiger & O'Brien, 2001), times the area.
    """
    pattern = hollow_coring(inside_diameter_mm, spacing_mm, row_spacing_mm, depth_mm)
    require_range("area, m²", area_m2, 0)
    _require_bulk_density(bulk_density_t_m3)
    holes_m3 = pattern.fill_m3_per_100_m2 * area_m2 / 100
    return Cores(holes_m3, holes_m3, holes_m3 * bulk_density_t_m3)


def sand_of_season(
    passes_kg_m2: Sequence[float], bulk_density_t_m3: float = BULK_DENSITY_T_M3
) -> SandOfSeason:
    """What all dressings of a season come to.

    Parameters
    ----------
    passes_kg_m2 : at least 0 each; none is a season without sand.
    bulk_density_t_m3 : above 0 to 2.65.

    Raises ImpossibleValue outside these ranges.
    Source: unit identity (1 kg/m² is 10 t/ha).
    """
    require_range("sand of a pass, kg/m²", list(passes_kg_m2) or [0.0], 0)
    together = math.fsum(passes_kg_m2)
    return SandOfSeason(
        len(passes_kg_m2), together, topdressing_depth(together, bulk_density_t_m3), together * 10
    )


def organic_matter_percent(oven_dry_g: float, ignited_g: float) -> float:
    """Organic matter by loss on ignition, % of the oven-dry mass.

    Parameters
    ----------
    oven_dry_g : above 0, without the crucible.
    ignited_g : 0 to ``oven_dry_g``, what the furnace left.

    Raises ImpossibleValue outside these ranges.
    Source: Faithfull, Methods in agricultural chemical analysis, method 57a.
    """
    require_above("oven-dry sample, g", oven_dry_g)
    require_range("sample after ignition, g", ignited_g, 0, oven_dry_g)
    return 100 * ((oven_dry_g - ignited_g) / oven_dry_g)


def topdressing_dilution(organic_matter_percent: float, depth_mm: float, sand_mm: float) -> float:
    """Organic matter of a layer once sand makes up part of its depth, %, by volume.

    The same depth of layer now holds that much sand, and so much less of what was there.

    Parameters
    ----------
    organic_matter_percent : 0 to 100, before.
    depth_mm : above 0, depth of the layer.
    sand_mm : 0 to ``depth_mm``, sand worked into it.

    Raises ImpossibleValue outside these ranges.
    Source: Woods, advisory article, 2019.
    """
    require_range("organic matter, %", organic_matter_percent, 0, 100)
    require_above("depth of the layer, mm", depth_mm)
    require_range("sand in the layer, mm", sand_mm, 0, depth_mm)
    return organic_matter_percent * ((depth_mm - sand_mm) / depth_mm)


def _fill(surface_percent: float, depth_mm: float | None) -> float | None:
    """Sand that fills the holes, m³ on 100 m²."""
    if depth_mm is None:
        return None
    require_range("depth of the holes, mm", depth_mm, 0)
    return surface_percent / 100 * depth_mm / 1000 * 100


def _require_bulk_density(bulk_density_t_m3: float) -> None:
    require_above("bulk density, t/m³", bulk_density_t_m3)
    require_range("bulk density, t/m³", bulk_density_t_m3, 0, HEAVIEST_SAND_T_M3)
