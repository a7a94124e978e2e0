"""When each height may be taken: the last one has held, and its season is there."""

from datetime import date, timedelta

from growin.agronomy.climate import LONGEST_DAYS
from growin.agronomy.heights import FIRST, WINTER, Rung
from growin.agronomy.programme import pace
from growin.agronomy.programme.done import SAME_HEIGHT_MM


def rung_days(plan, rungs: tuple[Rung, ...]) -> tuple[tuple[Rung, date], ...]:
    """Rungs with their days; it ends where the climate never brings the next.

    Heights that were reached stand on the day of their first cut; the next follows from the day since
    which the green has been cut at its height, and no sooner than today.
    """
    stands = plan.done.height
    dated, day = [], plan.taken
    for rung in rungs:
        if _is_reached(plan, rung, stands):
            day = plan.done.reached(rung.height_mm)
        elif dated or stands:
            held_since = day if dated and dated[-1][0].height_mm < _height_cut(stands) else stands[1]
            day = _not_gone_by(plan, _next_day(plan, held_since, rung))
        if day is None:
            break
        dated.append((rung, day))
    return tuple(dated)


def _is_reached(plan, rung: Rung, stands: tuple[float, date] | None) -> bool:
    """Cut so low now; once in play, ever: a winter that raises the height takes nothing back."""
    if stands and rung.height_mm >= stands[0] - SAME_HEIGHT_MM:
        return True
    return plan.done.opened_on is not None and plan.done.reached(rung.height_mm) is not None


def _height_cut(stands: tuple[float, date] | None) -> float:
    """The height cut so far less what the bench may be off; beyond all heights before any cut."""
    return stands[0] - SAME_HEIGHT_MM if stands else float("inf")


def _not_gone_by(plan, day: date | None) -> date | None:
    """Once heights are cut and logged, one that stands out is still to come."""
    today = plan.done.as_of if plan.done.cuts else None
    return max(day, today) if day and today else day


def _next_day(plan, held_since: date, rung: Rung) -> date | None:
    key = "heights.winter.topping_leaf_c_days" if rung.part == WINTER else "heights.hold.leaf_c_days"
    least = plan.settings["heights.winter.topping_days" if rung.part == WINTER else "heights.hold.days"]
    clock = pace.leaf_clock(plan.facts.grass, plan.settings)
    grown = plan.climate.day_when(clock, held_since, plan.settings[key])
    if grown is None:
        return None
    held = max(grown, held_since + timedelta(days=round(least)))
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
