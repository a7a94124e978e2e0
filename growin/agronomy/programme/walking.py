"""The walk of the green, every week by its number, and what to look for in its season."""

from collections.abc import Iterator
from datetime import date, timedelta

from growin.agronomy.defaults import COMMON_PRACTICE
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, step_on
from growin.agronomy.programme.watering import soil_watch_day


def steps(plan: Plan) -> list[Step]:
    """One step a week from laying to the horizon, and the soil thermometer in time for spring."""
    watch = soil_watch_day(plan)
    return [*(_walk(plan, monday) for monday in _mondays(plan)), *([_soil(watch)] if watch else [])]


def _mondays(plan: Plan) -> Iterator[date]:
    monday = plan.start - timedelta(days=plan.start.weekday())
    while monday <= plan.horizon:
        yield monday
        monday += timedelta(days=7)


def _walk(plan: Plan, monday: date) -> Step:
    year, week, _ = monday.isocalendar()
    first = max(monday, plan.start)
    return Step(
        key=f"walk-{year}-W{week:02d}",
        kind="walk",
        earliest=first,
        likely=first,
        latest=monday + timedelta(days=6),
        what="Walk the green" + (", every day" if _first_weeks(plan, first) else ""),
        how=_look_for(plan, first),
        why="what is seen in the first days is small; what is seen at month's end is a repair",
        source="daily for three weeks, then weekly",
        mark=COMMON_PRACTICE,
        cautions=("lone_work",),
    )


def _first_weeks(plan: Plan, day: date) -> bool:
    return (day - plan.start).days < plan.settings["rounds.daily_walk"]


def _look_for(plan: Plan, day: date) -> str:
    if _first_weeks(plan, day):
        return "Birds, badgers, worms, standing water; edges that lift, joints that open."
    if plan.resting(day):
        return "Microdochium patch, moss, leatherjackets; low spots after rain, drains running."
    if plan.opening and day >= plan.opening:
        return "Pitch marks, wear paths, thin or wilting places, joints that tear: over 5 % means close."
    return "Dry places, disease, moss, worms; colour against the other greens; joints and levels."


def _soil(day: date) -> Step:
    return step_on(
        day,
        "watch-soil-temperature",
        "watch",
        what="Start reading the soil at 100 mm, 9 am",
        how="The same place each morning; write it with the day's weather.",
        why="the first feed waits for a week at 6 °C",
        source="soil at 100 mm, 9 am",
        mark=COMMON_PRACTICE,
    )
