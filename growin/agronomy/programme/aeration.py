"""The chain of aeration: no coring until deep-rooted, and a plan for it where turf brought finer soil."""

from datetime import date, timedelta

from growin.agronomy.defaults import COMMON_PRACTICE
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, step_on
from growin.agronomy.season import first_august

_WEEK = timedelta(days=7)


def steps(plan: Plan) -> list[Step]:
    """Hollow coring from the first August where finer turf soil or a layer asks for it; else none."""
    first = coring_day(plan) if plan.facts.layer_words else None
    if first is None:
        return []
    years = range(int(plan.settings["pace.coring.years"]))
    return [_coring(plan, first.replace(year=first.year + year), year) for year in years]


def coring_day(plan: Plan) -> date | None:
    """The first August after enough growing weeks; the first February in the south."""
    if plan.rooted is None:
        return None
    grown = _growing_weeks(plan, plan.rooted, round(plan.settings["pace.coring.growing_weeks"]))
    return grown and first_august(grown, plan.latitude_deg)


def _growing_weeks(plan: Plan, start: date, weeks: int) -> date | None:
    """The day by which so many weeks of growth have passed since ``start``."""
    floor = plan.settings["climate.growth_stops_c"]
    day, grown = start, 0
    for _ in range(170):
        if grown >= weeks:
            return day
        day += _WEEK
        grown += plan.climate.week_mean_c(day) >= floor
    return None


def _coring(plan: Plan, day: date, year: int) -> Step:
    low, high = (plan.settings[f"pace.coring.surface_{end}_percent"] for end in ("low", "high"))
    return step_on(
        day,
        f"aerate-coring-{year + 1:02d}",
        "aerate",
        amount=low,
        unit="% of the surface a year",
        what="Hollow-core and fill with rootzone sand",
        how=f"{low:g}–{high:g} % of the surface over the year; lift the cores, fill the holes, brush.",
        why=f"{plan.facts.layer_words}, and a layer stops roots and water until it is cored out",
        source="two to three years from the first August: common practice; 15–20 % a year: USGA, contested",
        mark=COMMON_PRACTICE,
        cautions=("machinery", "buried_services", "sand_dust"),
        gate="white roots at 100 mm or deeper, 16 growing weeks behind it",
    )
