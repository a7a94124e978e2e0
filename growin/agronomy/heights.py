"""Heights of cut from the first cut to summer: rungs of a ladder, how far each drops, how long each holds.

Heights are bench settings in mm. The *opening height* is what matters for opening; the
*summer height* comes four to eight weeks later.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from growin.agronomy.defaults import (
    COMMON_PRACTICE,
    OUR_JUDGEMENT,
    PUBLISHED,
    Default,
    table,
)
from growin.agronomy.impossible import require_above
from growin.agronomy.species import is_turf, species_named, summer_height_mm

FIRST, WINTER, DOWN, OPENING, SUMMER = "first", "winter", "down", "opening", "summer"
_LEAF_LEFT = 2 / 3


def _mm(key, value, low, high, words, mark, source="") -> Default:
    return Default(f"heights.{key}", value, "mm", words, low, high, mark, source)


DEFAULTS = table(
    _mm("first_cut.turf_mm", 11, 8, 16, "first cut of turf, once knitted", COMMON_PRACTICE,
        "10–12 mm; rootzone-grown turf starts at 12: supplier specification"),
    _mm("first_cut.seed_bent_mm", 9.5, 8, 16, "first cut of seeded bent, when 12–15 mm tall", COMMON_PRACTICE,
        "set at 9.5–10 mm"),
    _mm("first_cut.seed_fescue_mm", 12, 8, 20, "first cut of seeded fescue/bent", OUR_JUDGEMENT),
    _mm("first_cut.seed_poa_mm", 10, 8, 16, "first cut of seeded Poa", OUR_JUDGEMENT),
    _mm("winter_mm", 8, 5, 12, "topping height of autumn turf over its first winter", COMMON_PRACTICE),
    _mm("step.turf_upper_mm", 1.5, 0.5, 2, "drop at a step above the winter height, turf", OUR_JUDGEMENT),
    _mm("step.turf_middle_mm", 1.0, 0.5, 1.5, "drop at a step from winter height, turf", COMMON_PRACTICE,
        "8 mm in winter, 7 in mid-March, 6 by opening: club practice"),
    _mm("step.turf_low_mm", 0.5, 0.25, 1, "drop at the lowest steps, turf", COMMON_PRACTICE, "0.25–0.5 mm"),
    _mm("step.turf_low_from_mm", 5, 4, 8, "the lowest steps of turf begin at this height", OUR_JUDGEMENT),
    _mm("autumn_floor_mm", 6, 4, 10, "not lower from autumn until the winter is over", COMMON_PRACTICE,
        "5–6 mm by November"),
    Default("heights.autumn_floor_month", 9, "month", "northern month from which that autumn floor holds",
        7, 11,
            OUR_JUDGEMENT),
    _mm("step.seed_bent_mm", 1.0, 0.5, 1.6, "drop at a weekly step, seeded bent", COMMON_PRACTICE,
        "0.8–1.6 mm a week in growth: practice note (US)"),
    _mm("step.seed_fescue_mm", 1.0, 0.5, 1.5, "drop at a weekly step to 8 mm, seeded fescue/bent", PUBLISHED,
        "STRI author, 2007: 1 mm a week in strong growth"),
    _mm("step.seed_fescue_low_mm", 0.5, 0.25, 1, "drop at a weekly step under 8 mm, seeded fescue/bent",
        PUBLISHED,
        "STRI author, 2007: 0.5 mm a week to 6.5–7 mm"),
    _mm("step.summer_mm", 0.5, 0.25, 0.5, "drop at a step from opening to summer height", COMMON_PRACTICE),
    _mm("seed_fescue.first_year_mm", 6.5, 5, 9, "seeded fescue/bent goes no lower in its first season",
        PUBLISHED,
        "STRI author, 2007: to 6.5–7 mm"),
    _mm("opening.above_others_mm", 0.75, 0, 2, "opening height above the other greens that week",
        COMMON_PRACTICE,
        "0.5–1 mm; club diaries opened 0–0.7 mm above the height aimed at"),
    _mm("opening.above_summer_mm", 1.0, 0, 3, "opening height above summer height, others not known",
        OUR_JUDGEMENT),
    _mm("floor.bent_mm", 3.0, 2, 5, "bent in its first season, not under", COMMON_PRACTICE,
        "summer 3.0–4.0 mm"),
    _mm("floor.fescue_mm", 4.0, 3, 6, "fescue, not under", OUR_JUDGEMENT,
        "5.0 mm published: USGA/Nordic trial"),
    _mm("floor.poa_mm", 3.2, 2.5, 5, "Poa, not under", PUBLISHED, "Rutgers University"),
    Default("heights.hold.days", 7, "days", "least hold of a height before the next step", 3, 28,
        COMMON_PRACTICE),
    Default("heights.hold.leaf_c_days", 15, "°C·days", "leaf growth (base 6 °C) a height must have stood",
        0, 100,
            OUR_JUDGEMENT, "about five days of April in Britain"),
    Default("heights.hold.opening_days", 14, "days", "opening height held without scalping", 7, 42,
        OUR_JUDGEMENT),
    Default("heights.winter.topping_days", 14, "days", "first cut of autumn turf to topping height", 7, 42,
            OUR_JUDGEMENT),
    Default("heights.winter.topping_leaf_c_days", 5, "°C·days",
            "leaf growth (base 6 °C) between first cut and topping height", 0, 60, OUR_JUDGEMENT),
    Default("heights.summer.least_days", 28, "days", "opening to summer height, at least", 14, 90,
        COMMON_PRACTICE,
            "4–8 weeks after opening"),
    Default("heights.summer.likely_days", 42, "days", "opening to summer height, as planned", 21, 120,
            COMMON_PRACTICE, "4–8 weeks after opening"),
    Default("heights.summer.most_days", 56, "days", "opening to summer height, at most", 28, 180,
        COMMON_PRACTICE,
            "4–8 weeks after opening"),
    Default("heights.first_cut.seed_bent_leaf_c_days", 80, "°C·days",
            "leaf growth (base 6 °C) from emergence to the first cut, bent", 30, 250, OUR_JUDGEMENT,
            "13–19 days from sowing in club diaries"),
    Default("heights.first_cut.seed_fescue_leaf_c_days", 120, "°C·days",
            "leaf growth (base 6 °C) from emergence to the first cut, fescue/bent", 40, 350, OUR_JUDGEMENT),
    Default("heights.first_cut.seed_poa_leaf_c_days", 80, "°C·days",
            "leaf growth (base 6 °C) from emergence to the first cut, Poa", 30, 250, OUR_JUDGEMENT),
    Default("heights.seed_fescue.low_share", 0.7, "",
        "share of the way to opening before seeded fescue goes under that",
            0.2, 1, OUR_JUDGEMENT),
    Default("heights.supplied.hold_months", 6, "months",
            "rootzone-grown turf: months at 6–7 mm that its supplier may ask for", 0, 12, PUBLISHED,
            "supplier specification"),
)  # fmt: skip

OUTER_RANGE = {
    "autumn turf": "first cut 10–12 mm, 8 mm over winter, 7 in mid-March, 6 by opening (club practice)",
    "rootzone-grown turf": "12 mm down to 6–7 mm, held for six months after laying (supplier specification)",
}


@dataclass(frozen=True)
class Rung:
    """One height on the way down: ``height_mm`` and its ``part`` (first, winter, down, opening, summer)."""

    height_mm: float
    part: str


def obeys_third_rule(from_mm: float, to_mm: float) -> bool:
    """Whether going from one height to the next takes no more than a third of the leaf.

    Source: Maryland golf best management practices; common practice.
    """
    return to_mm >= from_mm * _LEAF_LEFT - 1e-9


def floor_mm(species: str, settings: Mapping[str, float]) -> float:
    """The height under which the species is not cut in its first season, mm."""
    return settings[f"heights.floor.{species_named(species).group}_mm"]


def opening_height_mm(
    species: str,
    settings: Mapping[str, float],
    *,
    summer_mm: float | None = None,
    others_mm: float | None = None,
) -> float:
    """The height at which the green opens, mm.

    That of the club's other greens that week plus 0.5–1 mm where it is known, else the summer
    height plus 1 mm; never under the floor of the species.
    """
    summer = summer_height_mm(species, settings, summer_mm)
    if others_mm is None:
        return round(summer + settings["heights.opening.above_summer_mm"], 2)
    wanted = others_mm + settings["heights.opening.above_others_mm"]
    return round(max(wanted, floor_mm(species, settings)), 2)


def first_cut_mm(establishment: str, species: str, settings: Mapping[str, float]) -> float:
    """The setting of the first cut, mm."""
    if is_turf(establishment):
        return settings["heights.first_cut.turf_mm"]
    return settings[f"heights.first_cut.seed_{species_named(species).group}_mm"]


def descent(from_mm: float, to_mm: float, drop_mm) -> tuple[float, ...]:
    """Heights under ``from_mm`` down to ``to_mm``, each ``drop_mm(height)`` lower, within the third rule.

    Raises
    ------
    ImpossibleValue
        When a height or a drop is not above 0.
    """
    require_above("height of cut, mm", to_mm)
    heights, height, to_mm = [], from_mm, round(to_mm, 2)
    while height > to_mm:
        drop = drop_mm(height)
        require_above("drop at one step, mm", drop)
        height = max(to_mm, round(height - drop, 2), math.ceil(height * _LEAF_LEFT * 100) / 100)
        heights.append(height)
    return tuple(heights)


def ladder(
    *,
    establishment: str,
    species: str,
    autumn_turf: bool,
    opening_mm: float,
    settings: Mapping[str, float],
) -> tuple[Rung, ...]:
    """The rungs from the first cut to the opening height, highest first, never rising."""
    opening_mm = round(opening_mm, 2)
    first = max(first_cut_mm(establishment, species, settings), opening_mm)
    winter = _winter_rungs(first, opening_mm, settings) if autumn_turf else ()
    start = winter[-1] if winter else first
    drop = turf_drop(settings) if is_turf(establishment) else seed_drop(species, settings)
    below = descent(start, opening_mm, drop)
    return (
        Rung(first, OPENING if first == opening_mm else FIRST),
        *(Rung(height, OPENING if height == opening_mm else WINTER) for height in winter),
        *(Rung(height, OPENING if height == opening_mm else DOWN) for height in below),
    )


def _winter_rungs(first: float, opening_mm: float, settings) -> tuple[float, ...]:
    topping = max(settings["heights.winter_mm"], opening_mm)
    return descent(first, topping, lambda height: height - topping) if topping < first else ()


def turf_drop(settings: Mapping[str, float]):
    """How far turf drops at one step from a given height, mm."""

    def drop(height: float) -> float:
        if height > settings["heights.winter_mm"]:
            return settings["heights.step.turf_upper_mm"]
        low = height <= settings["heights.step.turf_low_from_mm"]
        return settings["heights.step.turf_low_mm" if low else "heights.step.turf_middle_mm"]

    return drop


def seed_drop(species: str, settings: Mapping[str, float]):
    """How far a seeded green drops at one step from a given height, mm."""
    fescue = species_named(species).group == "fescue"

    def drop(height: float) -> float:
        if not fescue:
            return settings["heights.step.seed_bent_mm"]
        return settings["heights.step.seed_fescue_mm" if height > 8 else "heights.step.seed_fescue_low_mm"]

    return drop


def to_summer(opening_mm: float, summer_mm: float, settings: Mapping[str, float]) -> tuple[Rung, ...]:
    """The rungs from opening to summer height; empty where the green opens at summer height."""
    heights = descent(opening_mm, min(summer_mm, opening_mm), lambda _: settings["heights.step.summer_mm"])
    return tuple(Rung(height, SUMMER) for height in heights)


def judge_height(
    height_mm: float, last_mm: float | None, species: str, settings: Mapping[str, float]
) -> list[str]:
    """What is doubtful about a planned height, one sentence each; empty when nothing is."""
    said = []
    floor = floor_mm(species, settings)
    if height_mm < floor:
        said.append(
            f"{height_mm:g} mm is under the floor of {floor:g} mm for {species_named(species).words}."
        )
    if last_mm is not None and not obeys_third_rule(last_mm, height_mm):
        least = last_mm * _LEAF_LEFT
        said.append(
            f"From {last_mm:g} to {height_mm:g} mm takes over a third of the leaf; {least:.1f} mm first."
        )
    return said
