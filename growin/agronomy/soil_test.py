"""What a soil test asks for: use of the year and the shortfall, never across extractants.

A figure in ppm means nothing without the liquid it was extracted with. The minimums below
belong to one extractant; a test by another is shown, never compared with them.
"""

from collections.abc import Mapping

from growin.agronomy.defaults import COMMON_PRACTICE, PUBLISHED, Default, table
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.nutrition import nutrient_requirement

MEHLICH_3 = "mehlich_3"
#: Extractants by key, in words as a laboratory prints them.
EXTRACTANTS: Mapping[str, str] = {
    MEHLICH_3: "Mehlich-3",
    "olsen": "Olsen (bicarbonate)",
    "ammonium_nitrate": "ammonium nitrate",
    "ammonium_acetate": "ammonium acetate",
    "morgan": "Morgan",
    "acetic_acid": "acetic acid",
    "water": "water or 1:2 extract",
}
#: Nutrients with a minimum, in words.
NUTRIENTS: Mapping[str, str] = {
    "K": "potassium (K)",
    "P": "phosphorus (P)",
    "Ca": "calcium (Ca)",
    "Mg": "magnesium (Mg)",
    "S": "sulphur (S)",
}
_WOODS = "Woods, minimum soil levels, September 2014 (Mehlich-3)"


def _minimum(element: str, value_ppm: float) -> Default:
    words = f"{NUTRIENTS[element]} in the soil by Mehlich-3, at least"
    return Default(f"soil.minimum_{element.lower()}_ppm", value_ppm, "ppm", words, 0, 2000, PUBLISHED, _WOODS)


DEFAULTS = table(
    _minimum("K", 37),
    _minimum("P", 21),
    _minimum("Ca", 331),
    _minimum("Mg", 47),
    _minimum("S", 7),
    Default("soil.sample_depth_mm", 100, "mm", "depth of the soil sample", 20, 300, COMMON_PRACTICE),
    Default(
        "soil.bulk_density_kg_m3", 1500, "kg/m³", "bulk density of the rootzone in place", 800, 2000,
        PUBLISHED, "Woods, advisory articles 2014–2020",
    ),
)  # fmt: skip


def minimum_ppm(element: str, settings: Mapping[str, float]) -> float:
    """The Mehlich-3 minimum of a nutrient, ppm, as it is in force.

    Raises ImpossibleValue for a nutrient that has none.
    Source: Woods, minimum soil levels, September 2014.
    """
    if element not in NUTRIENTS:
        raise ImpossibleValue("nutrient", element, f"one of {', '.join(NUTRIENTS)}")
    return settings[f"soil.minimum_{element.lower()}_ppm"]


def require_same_extractant(test: str, minimum: str) -> None:
    """Refuse a soil test beside a minimum that another extractant found.

    Raises
    ------
    ImpossibleValue
        Naming both; and for an extractant nobody lists.
    """
    for one in (test, minimum):
        if one not in EXTRACTANTS:
            raise ImpossibleValue("extractant", one, f"one of {', '.join(EXTRACTANTS)}")
    if test != minimum:
        raise ImpossibleValue(
            "extractant of the soil test",
            EXTRACTANTS[test],
            f"{EXTRACTANTS[minimum]}, as the minimum is; figures of two extractants cannot be compared",
        )


def requirement_from_test(
    annual_use_g_m2: float,
    soil_test_ppm: float,
    test_extractant: str,
    minimum_ppm: float,
    minimum_extractant: str = MEHLICH_3,
    depth_mm: float = DEFAULTS["soil.sample_depth_mm"].value,
    bulk_density_kg_m3: float = DEFAULTS["soil.bulk_density_kg_m3"].value,
) -> float:
    """Nutrient to apply in a year, g/m², from use, test and minimum of one extractant.

    Parameters
    ----------
    annual_use_g_m2, soil_test_ppm, minimum_ppm : at least 0, as the element.
    test_extractant, minimum_extractant : keys of :data:`EXTRACTANTS`; they must be the same.
    depth_mm : above 0, of the sample; bulk_density_kg_m3 : above 0 to 2650.

    Raises ImpossibleValue outside these ranges and across extractants.
    Source: Woods, advisory articles 2014-2020, as :func:`growin.agronomy.nutrition.nutrient_requirement`.
    """
    require_same_extractant(test_extractant, minimum_extractant)
    return nutrient_requirement(annual_use_g_m2, minimum_ppm, soil_test_ppm, depth_mm, bulk_density_kg_m3)
