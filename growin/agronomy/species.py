"""The grasses of a green and the ways it is established, in the trade's words.

One stored key per grass and per establishment, used by record, programme, forecast and
command line alike. Every figure that a club may change stands in :data:`DEFAULTS`.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from growin.agronomy.defaults import COMMON_PRACTICE, FROM_MEMORY, OUR_JUDGEMENT, PUBLISHED, Default, table

BENT, FESCUE_BENT, FESCUE = "creeping bent", "fescue/bent", "fine fescue"
POA_BENT, POA = "annual meadow grass/bent", "annual meadow grass"

#: Swards with bent in them, which take-all can live on.
WITH_BENT = frozenset({BENT, FESCUE_BENT, POA_BENT})

SEED = "seed"
TURF_RELAID, TURF_SUPPLIED = "turf_relaid", "turf_supplied"
TURF_NURSERY, TURF_WASHED = "turf_nursery", "turf_washed"


@dataclass(frozen=True)
class Species:
    """One kind of sward.

    Attributes
    ----------
    key, words : str
        Stored key; words on screen.
    group : str
        "bent", "fescue" or "poa": which line of a trade table applies.
    leaf_base_c : float
        Base of the leaf clock, °C (degree-days).
    nitrogen_optimum_c, nitrogen_spread_c : float
        Optimum and spread of the growth-potential clock that sets ceilings of nitrogen.
    emergence_days : tuple of float
        Fewest and most days from sowing to emergence in warm, moist seedbeds.
    emergence_soil_c : float
        Soil temperature below which seedlings do not come through, °C.
    seed_rate_g_m2 : tuple of float
        Usual live seed, lowest and highest, g/m².
    nitrogen_in_play_kg_ha : tuple of float
        Usual nitrogen a year once in play, lowest and highest, kg/ha.
    """

    key: str
    words: str
    group: str
    leaf_base_c: float
    nitrogen_optimum_c: float
    nitrogen_spread_c: float
    emergence_days: tuple[float, float]
    emergence_soil_c: float
    seed_rate_g_m2: tuple[float, float]
    nitrogen_in_play_kg_ha: tuple[float, float]


@dataclass(frozen=True)
class Establishment:
    """One way of making the surface: stored ``key``, ``words`` on screen, and whether it is turf."""

    key: str
    words: str
    is_turf: bool


def _by_key(*rows):
    return {row.key: row for row in rows}


# Clocks: growth potential 20 °C / 5.5 for bent (Gelernter & Stowell 2005); 18 °C preferred by a British
# advocate for Poa and fescue. Emergence: bent 3–10, fescue 7–14 days (published / from memory).
# Seed rates: from memory. Nitrogen in play: common practice in Britain; bent USGA 2023.
SPECIES: Mapping[str, Species] = _by_key(
    Species(BENT, "creeping bent", "bent", 6, 20, 5.5, (3, 10), 10, (5, 8), (50, 100)),
    Species(FESCUE_BENT, "fescue/bent", "fescue", 6, 18, 5.5, (7, 14), 8, (25, 35), (50, 90)),
    Species(FESCUE, "fine fescue", "fescue", 6, 18, 5.5, (7, 14), 8, (30, 40), (30, 60)),
    Species(
        POA_BENT, "annual meadow-grass (Poa) and bent", "poa", 6, 18, 5.5, (5, 12), 10, (5, 8), (80, 140)
    ),
    Species(POA, "annual meadow-grass (Poa)", "poa", 6, 18, 5.5, (5, 12), 8, (5, 10), (100, 200)),
)

ESTABLISHMENTS: Mapping[str, Establishment] = _by_key(
    Establishment(SEED, "seed", False),
    Establishment(TURF_RELAID, "the green's own turf, relaid", True),
    Establishment(TURF_SUPPLIED, "turf from a grower", True),
    Establishment(TURF_NURSERY, "turf from the club's nursery", True),
    Establishment(TURF_WASHED, "washed turf", True),
)


def _summer(key: str, value: float, low: float, mark: str, source: str = "") -> Default:
    words = f"summer height of {SPECIES[key].words}"
    return Default(f"heights.{setting_name(key)}.summer_mm", value, "mm", words, low, 10, mark, source)


def setting_name(key: str) -> str:
    """A species' key as a part of a dotted setting: "fescue/bent" becomes "fescue_bent"."""
    return key.replace("/", "_").replace(" ", "_")


DEFAULTS = table(
    _summer(BENT, 3.5, 2.5, COMMON_PRACTICE),
    _summer(FESCUE_BENT, 4.5, 3.5, COMMON_PRACTICE),
    _summer(FESCUE, 5.0, 4.0, PUBLISHED, "USGA/Nordic trial on fine fescue greens"),
    _summer(POA_BENT, 4.0, 3.2, COMMON_PRACTICE),
    _summer(POA, 4.0, 3.2, COMMON_PRACTICE, "not under 3.2: Rutgers University"),
    Default("emergence.bent.c_days", 50, "°C·days", "bent: warmth from sowing to emergence",
            20, 200, OUR_JUDGEMENT, "set so that warm seedbeds give the published 3–10 days"),
    Default("emergence.fescue.c_days", 90, "°C·days", "fescue: warmth from sowing to emergence",
            40, 300, OUR_JUDGEMENT, "set so that warm seedbeds give 7–14 days"),
    Default("emergence.poa.c_days", 65, "°C·days", "Poa: warmth from sowing to emergence",
            30, 250, OUR_JUDGEMENT),
    Default("emergence.base_c", 4, "°C", "temperature above which seed moves on", 0, 8, FROM_MEMORY),
)  # fmt: skip


def species_named(key: str) -> Species:
    """The species of a stored key.

    Raises
    ------
    ValueError
        For an unknown word, naming those that are known.
    """
    if key not in SPECIES:
        raise ValueError(f"The species “{key}” is not known; it should be one of: {', '.join(SPECIES)}.")
    return SPECIES[key]


def establishment_named(key: str) -> Establishment:
    """The establishment of a stored key.

    Raises
    ------
    ValueError
        For an unknown word, naming those that are known.
    """
    if key not in ESTABLISHMENTS:
        allowed = ", ".join(ESTABLISHMENTS)
        raise ValueError(f"The establishment “{key}” is not known; it should be one of: {allowed}.")
    return ESTABLISHMENTS[key]


def is_turf(establishment: str) -> bool:
    """Whether the green was laid with turf rather than sown."""
    return establishment_named(establishment).is_turf


def summer_height_mm(species: str, settings: Mapping[str, float], own_mm: float | None = None) -> float:
    """The summer height, mm: the club's own where it has set one, else the setting of the species."""
    return (
        own_mm
        if own_mm is not None
        else settings[f"heights.{setting_name(species_named(species).key)}.summer_mm"]
    )
