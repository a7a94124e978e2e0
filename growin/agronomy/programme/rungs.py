"""When each height may be taken: the last one has held, and its season is there."""

from datetime import date, timedelta

from growin.agronomy.climate import LONGEST_DAYS
from growin.agronomy.heights import FIRST, WINTER, Rung
from growin.agronomy.programme import pace


def rung_days(plan, rungs: tuple[Rung, ...]) -> tuple[tuple[Rung, date], ...]:
    """Rungs with their days; it ends where the climate never brings the next."""
    dated, day = [], plan.taken
    for rung in rungs:
        if dated:
            day = _next_day(plan, dated[-1], rung)
        if day is None:
            break
        dated.append((rung, day))
    return tuple(dated)


def _next_day(plan, last: tuple[Rung, date], rung: Rung) -> date | None:
    key = "heights.winter.topping_leaf_c_days" if rung.part == WINTER else "heights.hold.leaf_c_days"
    least = plan.settings["heights.winter.topping_days" if rung.part == WINTER else "heights.hold.days"]
    clock = pace.leaf_clock(plan.facts.grass, plan.settings)
    grown = plan.climate.day_when(clock, last[1], plan.settings[key])
    if grown is None:
        return None
    held = max(grown, last[1] + timedelta(days=round(least)))
    return held if rung.part in (FIRST, WINTER) else _in_season(plan, held, rung)


def _in_season(plan, day: date, rung: Rung) -> date | None:
    if plan.facts.is_autumn_turf:
        day = max(day, plan.spring)
    if _waits_a_year(plan, rung):
        mature = plan.seed_way(plan.settings["heights.seed_fescue.low_share"])
        day = mature and max(day, mature)
    return day and plan.climate.first_day(day, lambda on: _may_drop(plan, on, rung), LONGEST_DAYS)


def _waits_a_year(plan, rung: Rung) -> bool:
    if plan.facts.is_turf or plan.facts.grass.group != "fescue":
        return False
    return rung.height_mm < plan.settings["heights.seed_fescue.first_year_mm"]


def _may_drop(plan, day: date, rung: Rung) -> bool:
    if plan.resting(day):
        return False
    low = rung.height_mm < plan.settings["heights.autumn_floor_mm"]
    return not (low and _winter_ahead(plan, day))


def _winter_ahead(plan, day: date) -> bool:
    """Whether the day lies in an autumn whose winter will be a rest."""
    months = range(int(plan.settings["heights.autumn_floor_month"]), 13)
    return plan.month_of(day) in months and any(
        timedelta(0) <= rest.start - day < timedelta(days=150) for rest in plan.rests
    )
