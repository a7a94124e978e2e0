"""Nitrogen while a green grows in: doses, bands, limits, what goes with it, and the trials behind.

All rates are kg/ha of the element. The sources differ by ten times, so the tool shows the band
and plans in its calm half; the trials stand in :data:`TRIALS` as evidence, never as a default.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from growin.agronomy.defaults import COMMON_PRACTICE, FROM_MEMORY, OUR_JUDGEMENT, PUBLISHED, Default, table
from growin.agronomy.impossible import ImpossibleValue, require_range
from growin.agronomy.species import establishment_named, is_turf, species_named

FOLIAR, GRANULAR, SLOW_RELEASE = "foliar", "granular", "slow_release"
FORMS = {
    FOLIAR: "sprayed on the leaf",
    GRANULAR: "soluble granular, watered in",
    SLOW_RELEASE: "slow-release",
}
TURF_FORM = "ammonium or nitrate nitrogen with iron"
_WOODS = "Woods, advisory manual"
RATE, _PER_N = "kg N/ha", "kg per kg N"


def _n(key, value, low, high, words, mark, source="", unit=RATE) -> Default:
    return Default(f"feeding.{key}", value, unit, words, low, high, mark, source)


def _band(kind: str, words: str, low: float, high: float) -> tuple[Default, Default]:
    said = f"nitrogen of the first season, {words}"
    return (
        _n(f"season.{kind}.low_n_kg_ha", low, 0, 400, f"{said}, at least", OUR_JUDGEMENT),
        _n(f"season.{kind}.high_n_kg_ha", high, 0, 400, f"{said}, at most", OUR_JUDGEMENT),
    )


DEFAULTS = table(
    _n("soil_floor_c", 6, 3, 10, "no feeding with the soil at 100 mm under this", COMMON_PRACTICE, unit="°C"),
    _n("soil_held_days", 7, 1, 21, "days the soil must have held that", COMMON_PRACTICE, unit="days"),
    _n("light_under_c", 8, 5, 14, "under this soil only light ammonium or nitrate with iron", COMMON_PRACTICE,
       unit="°C"),
    _n("light_dose_n_kg_ha", 6, 2, 10, "one dose on soil that cool, at most", OUR_JUDGEMENT),
    _n("turf.rooted_c_days", 300, 100, 900, "warmth (above 0 °C) from laying until turf may be fed",
        OUR_JUDGEMENT,
       "nothing until rooted: Maryland golf best management practices", "°C·days"),
    _n("turf.first_dose_n_kg_ha", 6, 3, 12, "first feed of turf", COMMON_PRACTICE, "5–8 kg N/ha"),
    _n("turf.second_dose_n_kg_ha", 12, 5, 20, "second feed of turf, growth under way", COMMON_PRACTICE,
       "10–15 kg N/ha"),
    _n("turf.second_air_c", 8, 6, 12, "7-day mean air for the second feed", COMMON_PRACTICE, unit="°C"),
    _n("turf.dose_low_n_kg_ha", 5, 2, 10, "later feeds of turf, slow growth", COMMON_PRACTICE,
        "5–8 every 7–10 days"),
    _n("turf.dose_high_n_kg_ha", 8, 4, 15, "later feeds of turf, full growth", COMMON_PRACTICE,
       "5–8 every 7–10 days, at most 8 a week in summer"),
    _n("turf.interval_low_days", 7, 5, 14, "between feeds of turf, full growth", COMMON_PRACTICE,
        unit="days"),
    _n("turf.interval_high_days", 10, 7, 21, "between feeds of turf, slow growth", COMMON_PRACTICE,
        unit="days"),
    _n("full_growth_leaf_c", 8, 4, 14, "leaf growth of a day (base 6 °C) that counts as full growth",
        OUR_JUDGEMENT,
       unit="°C·days"),
    _n("seed_bent.week_n_kg_ha", 5, 2, 15, "bent from seed, a week until it covers", OUR_JUDGEMENT,
       "middle rate of the Michigan State University trial 2013–14"),
    _n("seed_fescue.week_n_kg_ha", 3, 1, 10, "fescue/bent from seed, a week until it covers", OUR_JUDGEMENT),
    _n("seed_poa.week_n_kg_ha", 5, 2, 15, "Poa from seed, a week until it covers", OUR_JUDGEMENT,
        "taken as for bent"),
    _n("seed_bent.fortnight_n_kg_ha", 10, 4, 20, "bent from seed, a fortnight once it covers", OUR_JUDGEMENT,
       "8–12 a fortnight"),
    _n("seed_fescue.fortnight_n_kg_ha", 8, 3, 15, "fescue/bent from seed, a fortnight once it covers",
        OUR_JUDGEMENT,
       "8–12 a fortnight"),
    _n("seed_poa.fortnight_n_kg_ha", 10, 4, 20, "Poa from seed, a fortnight once it covers", OUR_JUDGEMENT,
       "8–12 a fortnight"),
    *_band("seed_bent", "seeded bent", 150, 250),
    *_band("seed_fescue", "seeded fescue/bent", 80, 150),
    *_band("seed_poa", "seeded Poa (as bent)", 150, 250),
    *_band("turf_relaid", "turf relaid", 60, 100),
    *_band("turf_supplied", "turf from a grower", 80, 150),
    *_band("turf_nursery", "turf from the nursery", 80, 150),
    *_band("turf_washed", "washed turf", 100, 180),
    _n("dose.foliar_n_kg_ha", 10, 5, 20, "one foliar dose: a plan asks above this", COMMON_PRACTICE),
    _n("dose.granular_n_kg_ha", 20, 10, 40, "one soluble granular dose, watered in: a plan asks above this",
       COMMON_PRACTICE),
    _n("dose.reason_n_kg_ha", 25, 15, 49, "above this a plan wants a reason and slow-release nitrogen",
        FROM_MEMORY),
    _n("dose.never_n_kg_ha", 49, 20, 49, "no single dose above this", FROM_MEMORY, "1 lb N/1,000 ft²"),
    _n("dose.gather_n_kg_ha", 3, 1, 6, "doses under this are gathered into one", OUR_JUDGEMENT),
    _n("starter.p_kg_ha", 0, 0, 43, "phosphorus raked in before seed or turf; 0 unless the soil test is low",
       PUBLISHED, "21–43 kg P/ha by soil test, for seed: Michigan extension", "kg P/ha"),
    _n("ratio.k_per_n", 0.5, 0, 2, "potassium for each 1 of nitrogen taken up", PUBLISHED, _WOODS, _PER_N),
    _n("ratio.p_per_n", 0.125, 0, 1, "phosphorus for each 1 of nitrogen taken up", PUBLISHED, _WOODS, _PER_N),
    _n("ratio.ca_per_n", 0.125, 0, 1, "calcium for each 1 of nitrogen taken up", PUBLISHED, _WOODS, _PER_N),
    _n("ratio.mg_per_n", 0.05, 0, 1, "magnesium for each 1 of nitrogen taken up", PUBLISHED, _WOODS, _PER_N),
    _n("water_distance_m", 3, 2, 50, "to surface water, at least; local law first", PUBLISHED,
       "Great Britain 2 m; Ireland 3 m", "m"),
)  # fmt: skip


@dataclass(frozen=True)
class Trial:
    """What was tried elsewhere: shown as evidence beside the plan, never taken as its default."""

    what: str
    nitrogen: str
    found: str
    source: str
    mark: str = PUBLISHED


TRIALS = (
    Trial(
        "Bent from seed, 2013–14",
        "2.4, 4.9 or 7.3 kg N/ha a week",
        "the lowest stayed clearly behind; the middle nearly caught the highest",
        "Michigan State University",
    ),
    Trial(
        "Bent from seed, 1997–2000",
        "150 kg N/ha before sowing, then about 60 a fortnight; or twice that",
        "doubling it bought early cover and nothing after the first year",
        "University of Nebraska",
    ),
    Trial(
        "Bent from seed, advice for establishment",
        "49 kg N/ha in each of September, October and November; then 24 in May and 12 a fortnight",
        "advice, not a comparison",
        "Penn State University",
    ),
    Trial(
        "Warm-season grass",
        "12, 24, 37 or 49 kg N/ha a week",
        "24 was fastest; 12 was slower but gave the better surface and lost less to the drains",
        "Agronomy Journal 102:1601 (2010)",
    ),
    Trial(
        "Older habit",
        "25–50 kg N/ha every 7–10 days",
        "history; not a choice of this programme",
        "",
        FROM_MEMORY,
    ),
)


def season_key(establishment: str, species: str) -> str:
    """Which band of the first season applies: "turf_relaid", "seed_bent" …"""
    if is_turf(establishment):
        return establishment_named(establishment).key
    return f"seed_{species_named(species).group}"


def season_band(establishment: str, species: str, settings: Mapping[str, float]) -> tuple[float, float]:
    """Nitrogen of the first season, lowest and highest, kg/ha."""
    kind = f"feeding.season.{season_key(establishment, species)}"
    return settings[f"{kind}.low_n_kg_ha"], settings[f"{kind}.high_n_kg_ha"]


def between(low: float, high: float, pace: float) -> float:
    """The place on a band for a pace of growth from 0 (slow) to 1 (full)."""
    return low + (high - low) * min(max(pace, 0.0), 1.0)


def round_dose(n_kg_ha: float) -> float:
    """A dose to the half kilogram, as a spreader can be set."""
    return round(n_kg_ha * 2) / 2


def turf_dose_n_kg_ha(pace: float, settings: Mapping[str, float]) -> float:
    """One of the later feeds of turf by the pace of growth, kg N/ha."""
    return round_dose(
        between(settings["feeding.turf.dose_low_n_kg_ha"], settings["feeding.turf.dose_high_n_kg_ha"], pace)
    )


def turf_interval_days(pace: float, settings: Mapping[str, float]) -> int:
    """Days to the next feed of turf by the pace of growth."""
    slow, full = settings["feeding.turf.interval_high_days"], settings["feeding.turf.interval_low_days"]
    return round(between(slow, full, pace))


def seed_rates_n_kg_ha(species: str, settings: Mapping[str, float]) -> tuple[float, float]:
    """From seed: nitrogen a week until it covers, and a fortnight after, kg/ha."""
    kind = f"feeding.seed_{species_named(species).group}"
    return settings[f"{kind}.week_n_kg_ha"], settings[f"{kind}.fortnight_n_kg_ha"]


def may_feed(soil_c: float, settings: Mapping[str, float]) -> bool:
    """Whether the soil at 100 mm is warm enough to feed at all."""
    return soil_c >= settings["feeding.soil_floor_c"]


def companions_kg_ha(n_kg_ha: float, settings: Mapping[str, float]) -> dict[str, float]:
    """Most potassium, phosphorus, calcium and magnesium that belong with so much nitrogen, kg/ha.

    The cap once the starter is in. Source: Woods, advisory manual.
    """
    require_range("nitrogen, kg/ha", n_kg_ha, 0)
    return {
        nutrient: round(n_kg_ha * settings[f"feeding.ratio.{nutrient}_per_n"], 3)
        for nutrient in ("k", "p", "ca", "mg")
    }


def dose_limit_n_kg_ha(settings: Mapping[str, float], local_limit_n_kg_ha: float | None = None) -> float:
    """The most in one dose: the setting or the local limit, whichever is lower, kg N/ha."""
    never = settings["feeding.dose.never_n_kg_ha"]
    return never if local_limit_n_kg_ha is None else min(never, local_limit_n_kg_ha)


def judge_dose(
    n_kg_ha: float,
    form: str,
    settings: Mapping[str, float],
    *,
    reason: str = "",
    local_limit_n_kg_ha: float | None = None,
    soil_c: float | None = None,
) -> tuple[str, ...]:
    """What a plan says about one dose, a sentence each; empty when the dose is ordinary.

    A warning stops a plan until it is answered, never a record of what was spread.

    Parameters
    ----------
    n_kg_ha : float
        Nitrogen of the dose, kg/ha.
    form : str
        "foliar", "granular" (soluble, watered in) or "slow_release".
    reason : str
        Why the dose is this high, where the head greenkeeper has given one.
    local_limit_n_kg_ha : float, optional
        What local law allows in one dose.
    soil_c : float, optional
        Soil at 100 mm that morning.

    Raises
    ------
    ImpossibleValue
        For a negative dose or an unknown form.
    """
    require_range("nitrogen of one dose, kg/ha", n_kg_ha, 0)
    if form not in FORMS:
        raise ImpossibleValue("form of the fertiliser", f"“{form}”", "one of: " + ", ".join(FORMS))
    limit = dose_limit_n_kg_ha(settings, local_limit_n_kg_ha)
    said = [
        _over_limit(n_kg_ha, limit) or _high(n_kg_ha, form, reason, settings),
        _gather(n_kg_ha, settings),
        _cold(n_kg_ha, soil_c, settings),
    ]
    return tuple(sentence for sentence in said if sentence)


def _over_limit(n_kg_ha: float, limit: float) -> str:
    return f"{_dose(n_kg_ha)} is over the limit of {_dose(limit)} for one dose." if n_kg_ha > limit else ""


def _dose(n_kg_ha: float) -> str:
    return f"{n_kg_ha:g} kg N/ha"


def _high(n_kg_ha: float, form: str, reason: str, settings) -> str:
    wants_reason = settings["feeding.dose.reason_n_kg_ha"]
    if n_kg_ha > wants_reason:
        if reason and form == SLOW_RELEASE:
            return ""
        return f"{_dose(n_kg_ha)}: above {_dose(wants_reason)} give a reason and use slow-release nitrogen."
    asks = settings.get(f"feeding.dose.{form}_n_kg_ha")
    if asks is None or n_kg_ha <= asks or reason:
        return ""
    return f"{_dose(n_kg_ha)} is high for one dose {FORMS[form]}; above {_dose(asks)} say that it is meant."


def _gather(n_kg_ha: float, settings) -> str:
    least = settings["feeding.dose.gather_n_kg_ha"]
    if 0 < n_kg_ha < least:
        return f"{_dose(n_kg_ha)} is hard to spread evenly; gather doses to at least {_dose(least)}."
    return ""


def _cold(n_kg_ha: float, soil_c: float | None, settings) -> str:
    if soil_c is None or n_kg_ha == 0:
        return ""
    if not may_feed(soil_c, settings):
        floor = settings["feeding.soil_floor_c"]
        return f"The soil is at {soil_c:.1f} °C; under {floor:g} °C grass takes up next to nothing."
    light, most = settings["feeding.light_under_c"], settings["feeding.light_dose_n_kg_ha"]
    if soil_c < light and n_kg_ha > most:
        return f"With the soil under {light:g} °C keep to {most:g} kg N/ha of {TURF_FORM}."
    return ""
