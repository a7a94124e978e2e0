"""Heights of a year in play: up for the winter by November, down again in spring step by step."""

from collections.abc import Iterator
from datetime import date, timedelta

from growin.agronomy.defaults import COMMON_PRACTICE
from growin.agronomy.heights import descent
from growin.agronomy.programme.in_play.span import Span
from growin.agronomy.programme.ladder import height_word
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, step_on

_WEEK = timedelta(days=7)
#: From the half of the way up to the whole of it (our judgement).
_HALF_WAY = timedelta(days=21)


def steps(plan: Plan, span: Span) -> list[Step]:
    """Up in autumn and down in spring, every year; none where there is no winter to speak of."""
    if not plan.rests or not plan.settings["in_play.winter_up_mm"]:
        return []
    return [*_up(plan, span), *_down(plan, span)]


def winter_mm(plan: Plan) -> float:
    """The height of cut over the winter, mm."""
    return plan.summer_mm + plan.settings["in_play.winter_up_mm"]


def _up(plan: Plan, span: Span) -> Iterator[Step]:
    half = round((plan.summer_mm + winter_mm(plan)) * 2) / 4
    for day in span.local_days(plan.settings["in_play.height_up"], 1):
        for on, height_mm in ((day - _HALF_WAY, half), (day - _WEEK, winter_mm(plan))):
            yield _step(
                plan,
                on,
                f"cut-autumn-{day.year}",
                height_mm,
                what=f"Height up for the winter: {height_mm:g} mm",
                why="leaf through the winter feeds roots, and growth slows; up by November",
                source="1–3 mm up for the winter",
            )


def _down(plan: Plan, span: Span) -> Iterator[Step]:
    """From the first week warm enough to open a green on, a week or more at each height."""
    hold = timedelta(days=max(7, round(plan.settings["heights.hold.days"])))
    drops = descent(winter_mm(plan), plan.summer_mm, lambda _: plan.settings["heights.step.summer_mm"])
    for spring in span.local_days(plan.settings["in_play.height_down"], 1):
        warm = plan.climate.first_day(spring, lambda day: _is_warm(plan, day), 180)
        for number, height_mm in enumerate(drops if warm else ()):
            yield _step(
                plan,
                warm + number * hold,
                f"cut-spring-{spring.year}",
                height_mm,
                what=f"Next height down: {height_mm:g} mm",
                why="growth carries it again; the last height has held",
                source="drops of 0.25–0.5 mm",
            )


def _is_warm(plan: Plan, day: date) -> bool:
    return plan.climate.normal_c(day) >= plan.settings["pace.opening_air_c"]


def _step(plan: Plan, on: date, chain: str, height_mm: float, **said) -> Step:
    return step_on(
        on,
        f"{chain}-{height_word(height_mm)}",
        "cut",
        amount=height_mm,
        unit="mm",
        height_mm=height_mm,
        how="Dry leaf, sharp machine; measure the cut beside the bench.",
        mark=COMMON_PRACTICE,
        cautions=("machinery", "frozen_or_wet_turf"),
        **said,
    )
