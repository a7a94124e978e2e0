"""What laboratories print of soil and of water, and what can be.

Figures of a soil are ppm (mg in each kg of dry soil) of the element by the extractant named; of a water mg/l.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from growin.agronomy.feeding import season_band
from growin.agronomy.impossible import ImpossibleValue, require_range
from growin.agronomy.season_nutrition import belongs_with, in_play_band
from growin.agronomy.soil_test import MEHLICH_3, NUTRIENTS, minimum_ppm, requirement_from_test

SOIL, WATER = "soil", "water"
KG_HA_PER_G_M2 = 10


@dataclass(frozen=True)
class Figure:
    """One figure of a sheet: ``low`` to ``high`` in ``unit`` is what can be."""

    key: str
    words: str
    unit: str
    low: float
    high: float

    @property
    def label(self) -> str:
        """Words and unit: "potassium (K), ppm"."""
        return f"{self.words}, {self.unit}" if self.unit else self.words


def _by_key(*rows: Figure) -> Mapping[str, Figure]:
    return {row.key: row for row in rows}


FIGURES: Mapping[str, Mapping[str, Figure]] = {
    SOIL: _by_key(
        Figure("pH", "pH", "", 3, 10),
        *(Figure(element, words, "ppm", 0, 20_000) for element, words in NUTRIENTS.items()),
        Figure("Na", "sodium (Na)", "ppm", 0, 20_000),
        Figure("organic_percent", "organic matter", "%", 0, 100),
        Figure("carbonate_percent", "calcium carbonate", "%", 0, 100),
    ),
    WATER: _by_key(
        Figure("pH", "pH", "", 3, 11),
        Figure("ec_ds_m", "electrical conductivity", "dS/m", 0, 50),
        Figure("HCO3", "bicarbonate", "mg/l", 0, 2_000),
        Figure("Ca", "calcium (Ca)", "mg/l", 0, 2_000),
        Figure("Mg", "magnesium (Mg)", "mg/l", 0, 1_000),
        Figure("Na", "sodium (Na)", "mg/l", 0, 10_000),
        Figure("Cl", "chloride (Cl)", "mg/l", 0, 20_000),
        Figure("NO3_N", "nitrate nitrogen", "mg/l", 0, 200),
    ),
}


@dataclass(frozen=True)
class Asked:
    """What a nutrient of a soil test asks for in a year, kg/ha: its use, test and minimum in ppm."""

    element: str
    test_ppm: float
    minimum_ppm: float
    use_kg_ha: float
    kg_ha: float


def check_figures(kind: str, values: Mapping[str, float]) -> None:
    """Refuse a sheet that says nothing, or what cannot be.

    Raises
    ------
    ImpossibleValue
        For an unknown kind or figure, one out of its range, or no figure at all.
    """
    if kind not in FIGURES:
        raise ImpossibleValue("analysis", f"“{kind}”", "one of soil or of water")
    if not values:
        raise ImpossibleValue("sheet", "nothing", "at least one figure")
    for key, value in values.items():
        figure = FIGURES[kind].get(key)
        if figure is None:
            raise ImpossibleValue("figure", f"“{key}”", f"one of {', '.join(FIGURES[kind])}")
        require_range(figure.label, value, figure.low, figure.high)


def asked_by(
    values: Mapping[str, float],
    extractant: str,
    depth_mm: float,
    n_kg_ha: float,
    settings: Mapping[str, float],
) -> list[Asked]:
    """What the nutrients of a soil test ask for in a year; nothing by another extractant than Mehlich-3.

    Parameters
    ----------
    values : ppm by element. depth_mm : of the sample.
    n_kg_ha : nitrogen of the year, with which its share of each nutrient is used.

    Source: Woods, minimum soil levels, September 2014, by :func:`soil_test.requirement_from_test`.
    """
    if extractant != MEHLICH_3:
        return []
    return [_asked(one, values[one], depth_mm, n_kg_ha, settings) for one in NUTRIENTS if one in values]


def _asked(element: str, ppm: float, depth_mm: float, n_kg_ha: float, settings) -> Asked:
    use, least = belongs_with(element, n_kg_ha, settings) or 0.0, minimum_ppm(element, settings)
    g_m2 = requirement_from_test(
        use / KG_HA_PER_G_M2, ppm, MEHLICH_3, least, depth_mm=depth_mm,
        bulk_density_kg_m3=settings["soil.bulk_density_kg_m3"],
    )  # fmt: skip
    return Asked(element, ppm, least, use, g_m2 * KG_HA_PER_G_M2)


def nitrogen_of_a_year(
    establishment: str, species: str, is_first: bool, settings: Mapping[str, float]
) -> float:
    """The middle of the band of nitrogen of a first season, or of a year in play, kg/ha."""
    band = season_band(establishment, species, settings) if is_first else in_play_band(species, settings)
    return sum(band) / 2
