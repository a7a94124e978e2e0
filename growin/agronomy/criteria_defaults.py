"""Thresholds of the opening criteria, each with its mark, source and the way that loosens it."""

from collections.abc import Mapping

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT, PUBLISHED, Default, table

LOWER, HIGHER = "lower", "higher"

# key, value, unit, words, low, high, which way is looser[, mark, source]
_ROWS = (
    ("rooting_turf.depth_mm", 50, "mm", "Depth of white roots below the face", 10, 200, LOWER),
    ("rooting_turf.cores_at_least", 4, "cores", "Cores that must reach it", 1, 30, LOWER),
    ("rooting_turf.cores_of", 5, "cores", "Cores taken", 1, 30, HIGHER),
    ("rooting_turf.points_at_least", 8, "points", "Points that must hold pull and lift", 1, 50, LOWER),
    ("rooting_turf.points_of", 10, "points", "Points pulled and lifted", 1, 50, HIGHER),
    ("rooting_seed.depth_mm", 75, "mm", "Depth of white roots", 10, 200, LOWER),
    ("rooting_seed.cores_at_least", 4, "cores", "Cores that must reach it", 1, 30, LOWER),
    ("rooting_seed.cores_of", 5, "cores", "Cores taken", 1, 30, HIGHER),
    ("joints.open_mm", 3, "mm", "Widest open joint allowed", 0, 20, HIGHER),
    ("joints.proud_mm", 0, "mm", "Proudest joint allowed", 0, 10, HIGHER),
    ("joints.places_of", 20, "places", "Joint places read", 1, 100, LOWER),
    ("cover.share_percent", 98, "%", "Cover estimated", 50, 100, LOWER),
    ("cover.lower_percent", 95, "%", "Cover allowing for chance", 40, 100, LOWER),
    ("cover.confidence", 0.95, "", "Confidence of that, one side", 0.6, 0.999, LOWER),
    ("cover.frames_of", 10, "frames", "Frames thrown", 1, 100, LOWER),
    ("cover.points_of", 25, "points", "Points in a frame", 1, 200, LOWER),
    ("cover.bare_patch_mm", 50, "mm", "Widest bare patch allowed", 0, 1000, HIGHER),
    ("levels.lip_mm", 2, "mm", "Lip allowed under the 0.5 m edge", 0, 20, HIGHER),
    ("levels.lip_placings_of", 20, "placings", "Placings of the 0.5 m edge", 1, 100, LOWER),
    ("levels.dip_mm", 4, "mm", "Dip allowed under the 1 m edge", 0, 40, HIGHER),
    ("levels.dip_placings_of", 12, "placings", "Placings of the 1 m edge", 1, 100, LOWER),
    ("levels.rolls_of", 1, "rolls", "Balls rolled to see a jump", 1, 30, LOWER),
    ("holes.hold_of", 3, "holes", "Test holes that must hold", 1, 20, LOWER),
    ("holes.drops_at_least", 8, "drops", "Ball drops that must dent and repair flat", 1, 50, LOWER),
    ("holes.drops_of", 9, "drops", "Ball drops", 1, 50, HIGHER),
    ("holes.positions_at_least", 4, "positions", "Usable hole positions", 1, 30, LOWER),
    ("height.days", 14, "days", "Days the opening height must have been held", 0, 60, LOWER),
    ("height.tolerance_mm", 0.2, "mm", "Measured height allowed above it", 0, 2, HIGHER),
    ("height.bench_allowance_mm", 1, "mm", "Bench setting allowed above it", 0, 3, HIGHER),
    ("growth.air_c", 8, "°C", "Mean air of the days below", 0, 20, LOWER),
    ("growth.soil_c", 8, "°C", "Soil at 100 mm, 9 am, each day", 0, 20, LOWER),
    ("growth.days", 7, "days", "Days of air or soil", 3, 21, LOWER),
    ("growth.clippings_ml_m2", 10, "ml/m²", "Clippings worth emptying", 1, 100, LOWER),
    ("growth.cuts_at_least", 2, "cuts", "Cuts with clippings worth emptying", 1, 10, LOWER),
    ("growth.cuts_of", 3, "cuts", "of the last cuts", 1, 10, HIGHER),
    ("growth.cuts_within_days", 21, "days", "within the last", 3, 60, HIGHER),
    ("growth.lost_under_c", 6, "°C", "Mean air that loses growth again", -5, 15, LOWER),
    ("disease.share_percent", 1, "%", "Area with active disease or damage allowed", 0, 20, HIGHER),
    ("surrounds.routes_of", 1, "routes", "Walk-on routes looked at", 1, 20, LOWER),
    ("mat.low_mm", 3, "mm", "Thin mat, least", 0, 20, LOWER),
    ("mat.high_mm", 6, "mm", "Thin mat, most", 1, 40, HIGHER),
    ("thatch.high_mm", 12, "mm", "Thatch, most", 1, 50, HIGHER),
    ("profile.cores_of", 5, "cores", "Cores for mat and thatch", 1, 30, LOWER),
    ("infiltration.low_mm_h", 100, "mm/h", "Infiltration, least", 1, 1000, LOWER),
    ("infiltration.places_of", 3, "places", "Places of the double ring", 1, 30, LOWER),
    (
        "hardness.low_gravities",
        80,
        "gravities",
        "Hardness, least",
        20,
        300,
        LOWER,
        PUBLISHED,
        "STRI, 0.5 kg hammer",
    ),
    (
        "hardness.high_gravities",
        100,
        "gravities",
        "Hardness, most",
        20,
        400,
        HIGHER,
        PUBLISHED,
        "STRI, 0.5 kg hammer",
    ),
    ("hardness.places_of", 9, "places", "Places of the hammer", 1, 50, LOWER),
    ("moisture.low_percent", 15, "%", "Moisture, least", 1, 60, LOWER, COMMON_PRACTICE, ""),
    ("moisture.high_percent", 40, "%", "Moisture, most", 5, 80, HIGHER, COMMON_PRACTICE, ""),
    (
        "moisture.places_of",
        15,
        "places",
        "Places of the probe",
        1,
        100,
        LOWER,
        PUBLISHED,
        "Agronomy 12:1402, 2022",
    ),
    ("speed.spots_of", 1, "level spots", "Level spots rolled", 1, 20, LOWER),
    ("watch.confidence", 0.9, "", "Confidence of the intervals of means", 0.5, 0.999, LOWER),
    ("fresh_days", 14, "days", "Days a reading stays fresh", 1, 60, HIGHER),
    ("fresh_days_near_opening", 7, "days", "Days it stays fresh near a proposed day", 1, 60, HIGHER),
    ("near_opening_days", 14, "days", "Days before a proposed day that count as near", 0, 60, LOWER),
    ("pool_days", 3, "days", "Days over which one set may be finished", 0, 14, HIGHER),
    ("inspect_days", 14, "days", "Days between two sets of readings", 1, 60, HIGHER),
)


def _default(key, value, unit, words, low, high, _looser, mark=OUR_JUDGEMENT, source="") -> Default:
    return Default(f"criterion.{key}", value, unit, words, low, high, mark, source)


DEFAULTS: Mapping[str, Default] = table(*(_default(*row) for row in _ROWS))
LOOSER: Mapping[str, str] = {f"criterion.{row[0]}": row[6] for row in _ROWS}


def is_looser(key: str, before: float, after: float) -> bool:
    """Whether changing ``key`` from ``before`` to ``after`` makes opening easier."""
    return after < before if LOOSER[key] == LOWER else after > before
