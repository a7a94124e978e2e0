"""Sand on a green that grows in: how much a pass, how often, how much a season, and when not.

Passes in kg/m² of dry sand, depths in mm. 1 mm is 10 m³/ha, about 16 t/ha at 1.6 t/m³.
"""

from collections.abc import Mapping

from growin.agronomy import sand
from growin.agronomy.defaults import COMMON_PRACTICE, FROM_MEMORY, OUR_JUDGEMENT, PUBLISHED, Default, table
from growin.agronomy.feeding import between
from growin.agronomy.impossible import require_range

_KG, _DAYS = "kg/m²", "days"
_USGA = "USGA 2014: 0.2–0.8 kg/m² a light pass"


def _of(key, value, unit, low, high, words, mark, source="") -> Default:
    return Default(f"dressing.{key}", value, unit, words, low, high, mark, source)


DEFAULTS = table(
    _of("pass_kg_m2", 0.5, _KG, 0.1, 1.5, "one light pass", PUBLISHED, _USGA),
    _of("pass_low_kg_m2", 0.2, _KG, 0.05, 0.5, "a light pass, at least", PUBLISHED, _USGA),
    _of("pass_high_kg_m2", 0.8, _KG, 0.3, 1.5, "a light pass, at most", PUBLISHED, _USGA),
    _of("joints_kg_m2", 1.5, _KG, 0.5, 3, "on open joints", COMMON_PRACTICE, "1–2 kg/m²"),
    _of("seedlings_kg_m2", 0.3, _KG, 0.1, 0.8, "over seedlings, so little that no drag mat is needed",
        PUBLISHED,
        "only as much as needs no drag mat: USGA"),
    _of("heavy_kg_m2", 3, _KG, 1.5, 6, "as much as this at once is hard to work in", PUBLISHED,
        "British laboratory"),
    _of("interval_low_days", 10, _DAYS, 5, 21, "between light passes in full growth", COMMON_PRACTICE,
        "every 7–14 days in growth"),
    _of("interval_high_days", 14, _DAYS, 7, 42, "between light passes in slow growth", COMMON_PRACTICE),
    _of("season_low_kg_m2", 6, _KG, 0, 30, "sand a season in Britain, usual lowest", COMMON_PRACTICE,
        "a British laboratory: at most 6"),
    _of("season_high_kg_m2", 12, _KG, 3, 30, "sand a season in Britain, usual highest", COMMON_PRACTICE),
    _of("first_month", 2, "month", 1, 6, "northern month of the first sand on autumn turf", COMMON_PRACTICE),
    _of("first_day", 20, "day", 1, 28, "day of that month: late February", COMMON_PRACTICE),
    _of("frost_free_c", 5, "°C", 2, 9, "7-day mean air that counts as a frost-free spell", OUR_JUDGEMENT),
    _of("season_seen_mm", 6.2, "mm", 0, 20, "sand of a season in one trial", PUBLISHED,
        "Nebraska, 99 t/ha: USGA"),
    _of("season_older_mm", 13.5, "mm", 0, 20, "sand of a season by older advice", FROM_MEMORY,
        "USGA: 12–15 mm"),
)  # fmt: skip


def depth_mm(pass_kg_m2: float, bulk_density_t_m3: float) -> float:
    """How deep a pass lies, mm."""
    return sand.topdressing_depth(pass_kg_m2, bulk_density_t_m3)


def sand_for(pass_kg_m2: float, area_m2: float, bulk_density_t_m3: float) -> sand.Sand:
    """Volume (m³) and mass (t) of one pass over the green."""
    return sand.topdressing(depth_mm(pass_kg_m2, bulk_density_t_m3), area_m2, bulk_density_t_m3)


def interval_days(pace: float, settings: Mapping[str, float]) -> int:
    """Days to the next light pass by the pace of growth, 0 (slow) to 1 (full)."""
    slow, full = settings["dressing.interval_high_days"], settings["dressing.interval_low_days"]
    return round(between(slow, full, pace))


def judge_dressing(
    pass_kg_m2: float,
    settings: Mapping[str, float],
    *,
    season_so_far_kg_m2: float = 0.0,
    winter: bool = False,
    knitted: bool = True,
) -> tuple[str, ...]:
    """What a plan says about one dressing, a sentence each; empty when it is ordinary.

    Parameters
    ----------
    pass_kg_m2 : float
        Dry sand, kg/m².
    season_so_far_kg_m2 : float
        Already on since the season began.
    winter : bool
        The day lies in December to February (June to August in the south).
    knitted : bool
        Turf has knitted, or seedlings stand firm.

    Raises
    ------
    ImpossibleValue
        For negative amounts.
    """
    require_range("sand of one dressing, kg/m²", pass_kg_m2, 0)
    require_range("sand of the season so far, kg/m²", season_so_far_kg_m2, 0)
    heavy, most = settings["dressing.heavy_kg_m2"], settings["dressing.season_high_kg_m2"]
    light, total = settings["dressing.pass_high_kg_m2"], season_so_far_kg_m2 + pass_kg_m2
    doubts = (
        (not knitted and pass_kg_m2 > 0, "Not over turf or seedlings that have not taken."),
        (pass_kg_m2 >= heavy, f"{pass_kg_m2:g} kg/m² at once is hard to work in; split it."),
        (winter and pass_kg_m2 > light, "A heavy dressing in winter smothers the grass and invites disease."),
        (total > most, f"With this the season stands at {total:g} kg/m², over the usual {most:g} kg/m²."),
    )
    return tuple(words for doubtful, words in doubts if doubtful)
