"""The chain of rolling: light, on firm dry turf that has taken, never in frost or wet."""

from datetime import timedelta

from growin.agronomy.defaults import COMMON_PRACTICE
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, step_on


def steps(plan: Plan) -> list[Step]:
    """Light rolls from taking (autumn turf: from spring) to the horizon, a fortnight apart."""
    days = plan.in_rounds("roll", _first(plan), lambda _: plan.settings["rounds.roll"], plan.horizon)
    return [_roll(number, day) for number, day in enumerate(days, 1)]


def _first(plan: Plan):
    if plan.facts.is_turf:
        return plan.knitted and max(plan.spring, plan.knitted) + timedelta(days=7)
    return plan.covered


def _roll(number: int, day) -> Step:
    return step_on(
        day,
        f"roll-{number:02d}",
        "roll",
        what="Light roll",
        how="One light pass, on firm, dry turf; change direction each time.",
        why="it sets roots against the rootzone and evens small levels; weight does not cure a dip",
        source="once knitted, firm and dry; never on wet or frozen ground",
        mark=COMMON_PRACTICE,
        cautions=("machinery", "frozen_or_wet_turf"),
        gate="knitted, firm and dry",
    )
