"""Hollow coring of a green in play: from the first August that it is rooted for, by its organic matter."""

from datetime import date

from growin.agronomy.defaults import PUBLISHED
from growin.agronomy.programme import aeration
from growin.agronomy.programme.in_play.span import Span
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step


def steps(plan: Plan, span: Span) -> list[Step]:
    """One a year; none in the years in which a layer is cored out anyway."""
    first = aeration.coring_day(plan)
    if first is None:
        return []
    taken = {step.likely.year for step in aeration.steps(plan)}
    days = span.local_days(plan.settings["in_play.coring"], 1)
    return [_coring(plan, day) for day in days if day >= first and day.year not in taken]


def _coring(plan: Plan, day: date) -> Step:
    low, high = (plan.settings[f"pace.coring.surface_{end}_percent"] for end in ("low", "high"))
    return Step(
        key=f"aerate-{day.year}-{day.month:02d}",
        kind="aerate",
        earliest=day,
        likely=day.replace(day=10),
        latest=day.replace(day=28),
        what="Hollow-core as far as the organic matter asks for it",
        how=f"{low:g}–{high:g} % of the surface over the year where it does, the holes filled with rootzone "
        "sand; solid tines where it does not.",
        why="organic matter at 0–20 mm should stay under 6 %, and under 4 % below; the samples decide, not "
        "the calendar",
        source="STRI 2010 for organic matter; 15–20 % a year: USGA, contested",
        mark=PUBLISHED,
        cautions=("machinery", "buried_services", "sand_dust"),
        gate="white roots at 100 mm or deeper, 16 growing weeks behind it",
    )
