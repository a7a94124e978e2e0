"""The clocks and thresholds that carry a green from laying or sowing to the day it may open."""

from collections.abc import Mapping

from growin.agronomy.climate import DayClock, degree_days, potential
from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT, PUBLISHED, Default, table
from growin.agronomy.species import Species

_ROOTS, _GROWTH = "°C·days", "growth days"
_BRITAIN = "about 960–1,315 from laying to the usual British opening, less for late laying"
_SEEN = "58–101 on published rules and open histories"
_LINKS = "fescue/bent about 18 months, links fescue 24–33: STRI"


def _pace(key, value, low, high, unit, words, mark=OUR_JUDGEMENT, source="") -> Default:
    return Default(f"pace.{key}", value, unit, words, low, high, mark, source)


DEFAULTS = table(
    _pace("root_base_c", 0, -2, 6, "°C", "rooting of turf counts warmth above this"),
    _pace("knitted_c_days", 150, 50, 600, _ROOTS, "from laying until turf has knitted",
          source="first cut 7–10 days after laying in warm weather: club diaries"),
    _pace("turf.early", 500, 200, 2000, _ROOTS, "turf, laying to opening, at the earliest",
          source="limited opening in one open history"),
    _pace("turf.likely", 750, 300, 2500, _ROOTS, "turf, laying to opening, as planned",
          source="first week of December to late April in Britain: BIGGA 2004"),
    _pace("turf.late", 1100, 400, 3000, _ROOTS, "turf, laying to opening, at the latest", source=_BRITAIN),
    _pace("optimum_c", 18, 14, 24, "°C", "optimum of growth for seed, on which places agree best",
          source="British advocate for Poa and fescue"),
    _pace("spread_c", 5.5, 3, 9, "°C more or less", "spread of growth for seed", PUBLISHED,
          "Gelernter & Stowell 2005"),
    _pace("seed_bent.early", 58, 20, 200, _GROWTH, "bent from seed to opening, at the earliest",
        source=_SEEN),
    _pace("seed_bent.likely", 80, 20, 300, _GROWTH, "bent from seed to opening, as planned", source=_SEEN),
    _pace("seed_bent.late", 101, 20, 400, _GROWTH, "bent from seed to opening, at the latest", source=_SEEN),
    _pace("seed_poa.early", 58, 20, 200, _GROWTH, "Poa from seed to opening, at the earliest"),
    _pace("seed_poa.likely", 80, 20, 300, _GROWTH, "Poa from seed to opening, as planned"),
    _pace("seed_poa.late", 101, 20, 400, _GROWTH, "Poa from seed to opening, at the latest"),
    _pace("seed_fescue.early", 150, 50, 400, _GROWTH, "fescue from seed to opening, earliest", source=_LINKS),
    _pace("seed_fescue.likely", 200, 50, 500, _GROWTH, "fescue from seed to opening, planned", source=_LINKS),
    _pace("seed_fescue.late", 300, 50, 600, _GROWTH, "fescue from seed to opening, latest", source=_LINKS),
    _pace("covered_share", 0.35, 0.1, 0.9, "", "share of the way to opening at which seed covers 95 %"),
    _pace("opening_air_c", 8, 6, 12, "°C", "7-day mean air on which a green opens"),
    _pace("rest.turf_under_c", 10, 6, 12, "°C", "turf rests from the week the mean air falls under this"),
    _pace("rest.seed_under_c", 6, 4, 12, "°C", "seedlings rest from the week the mean air falls under this"),
    _pace("rest.until_month", 3, 1, 5, "month", "northern month before which the rest does not end",
          COMMON_PRACTICE),
    _pace("rest.over_c", 6, 4, 10, "°C", "7-day mean air at which the rest ends", COMMON_PRACTICE),
    _pace("coring.growing_weeks", 16, 8, 40, "weeks", "growing weeks before hollow coring", COMMON_PRACTICE),
    _pace("coring.years", 3, 1, 5, "years",
        "years of coring where the turf's soil is finer than the rootzone",
          COMMON_PRACTICE, "2–3 years"),
    _pace("coring.surface_low_percent", 15, 3, 25, "%", "surface opened by coring in a year, at least",
        PUBLISHED,
          "USGA, contested: steer by organic matter"),
    _pace("coring.surface_high_percent", 20, 5, 30, "%", "surface opened by coring in a year, at most",
        PUBLISHED,
          "USGA, contested: steer by organic matter"),
    _pace("after_opening_days", 42, 14, 120, "days", "how far beyond the opening a programme reaches"),
)  # fmt: skip

EARLY, LIKELY, LATE = "early", "likely", "late"


def factor(settings: Mapping[str, float]) -> float:
    """The club's own pace on the clocks; 1 where it has set none."""
    return settings.get("clock.factor", 1.0)


def root_clock(settings: Mapping[str, float]) -> DayClock:
    """Warmth for roots of turf, °C·days."""
    return degree_days(settings["pace.root_base_c"], factor(settings))


def leaf_clock(grass: Species, settings: Mapping[str, float]) -> DayClock:
    """Leaf growth in a cool spring, °C·days."""
    return degree_days(grass.leaf_base_c, factor(settings))


def seed_clock(settings: Mapping[str, float]) -> DayClock:
    """Growth days of a seeded green."""
    return potential(settings["pace.optimum_c"], settings["pace.spread_c"], factor(settings))


def emergence_clock(settings: Mapping[str, float]) -> DayClock:
    """Warmth for seed to come through, °C·days."""
    return degree_days(settings["emergence.base_c"])
