"""Every constant of the trade that a club may set, gathered from the tables beside their subjects."""

from collections.abc import Mapping

from growin.agronomy import (
    calibration,
    cautions,
    climate,
    construction_defaults,
    criteria,
    drainage,
    dressing,
    evapotranspiration,
    feeding,
    gates,
    growth,
    heights,
    intervals,
    layering,
    mowing,
    radiation,
    rootzone,
    rootzone_water,
    sand,
    season_limits,
    season_nutrition,
    soil_test,
    species,
    summaries,
    take_all,
    weather_flags,
)
from growin.agronomy.criteria import is_looser
from growin.agronomy.defaults import Default, merge, values
from growin.agronomy.forecast import constants as forecast_constants
from growin.agronomy.impossible import ImpossibleValue, require_range
from growin.agronomy.programme import pace, rounds
from growin.agronomy.programme.in_play import rounds as in_play_rounds

__all__ = ["DEFAULTS", "TABLES", "check_setting", "default_values", "loosens"]

#: Heading on the settings page and the table under it.
TABLES: tuple[tuple[str, Mapping[str, Default]], ...] = (
    ("Criteria for opening", criteria.DEFAULTS),
    ("Earliest opening", gates.DEFAULTS),
    ("Heights of cut", heights.DEFAULTS),
    ("Feeding", feeding.DEFAULTS),
    ("Topdressing", dressing.DEFAULTS),
    ("Pace of the programme", pace.DEFAULTS),
    ("Rounds of the programme", rounds.DEFAULTS),
    ("The year in play", in_play_rounds.DEFAULTS),
    ("Grasses", species.DEFAULTS),
    ("Clocks of growth", growth.DEFAULTS),
    ("Climate", climate.DEFAULTS),
    ("Forecast", forecast_constants.DEFAULTS),
    ("Sand", sand.DEFAULTS),
    ("Clippings", mowing.DEFAULTS),
    ("Water use", evapotranspiration.DEFAULTS),
    ("Water in the rootzone", rootzone_water.DEFAULTS),
    ("Sunshine", radiation.DEFAULTS),
    ("Soil tests", soil_test.DEFAULTS),
    ("Catch tests", calibration.DEFAULTS),
    ("Building", construction_defaults.DEFAULTS),
    ("Rootzone and gravel", rootzone.DEFAULTS),
    ("Layers on the rootzone", layering.DEFAULTS),
    ("Drains", drainage.DEFAULTS),
    ("Readings in short", summaries.DEFAULTS),
    ("Intervals", intervals.DEFAULTS),
    ("Cautions", cautions.DEFAULTS),
    ("Limits of a season", season_limits.DEFAULTS),
    ("Feeding in play", season_nutrition.DEFAULTS),
    ("What favours take-all", take_all.DEFAULTS),
    ("Weather that is told of", weather_flags.DEFAULTS),
)

DEFAULTS: Mapping[str, Default] = merge(entries for _, entries in TABLES)


def default_values() -> dict[str, float]:
    """All defaults as plain values by key, ready to be overridden."""
    return values(DEFAULTS)


def check_setting(key: str, value: float, in_force: Mapping[str, float] | None = None) -> None:
    """Refuse a value that cannot be meant, alone or beside the others ``in_force``.

    Raises
    ------
    ImpossibleValue
        For an unknown key, a value outside its range, or thresholds that contradict each other.
    """
    if key not in DEFAULTS:
        raise ImpossibleValue("setting", f"“{key}”", "one of the settings listed")
    default = DEFAULTS[key]
    words = f"{default.words}, {default.unit}" if default.unit else default.words
    require_range(words, value, default.low, default.high)
    criteria.check_settings(default_values() | dict(in_force or {}) | {key: value})


def loosens(key: str, before: float, after: float) -> bool:
    """Whether a change makes opening easier; False for what is no criterion."""
    return key in criteria.LOOSER and is_looser(key, before, after)
