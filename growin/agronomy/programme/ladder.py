"""The chain of heights: first cut, winter, down to opening height, then to summer."""

from datetime import date, timedelta

from growin.agronomy import heights
from growin.agronomy.defaults import COMMON_PRACTICE, PUBLISHED
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, step_on
from growin.agronomy.species import TURF_NURSERY, TURF_SUPPLIED

_THIRD = "never more than a third of the leaf: Maryland golf best management practices"
_SUPPLIED = " Its supplier may ask for 6–7 mm until six months after laying: ask first."
_WORDS = {
    heights.FIRST: ("First cut", "the grass has taken and stands a third above the set height"),
    heights.WINTER: (
        "Topping height for the winter",
        "leaf through the winter feeds roots; only dry and growing",
    ),
    heights.DOWN: ("Next height down", "the last height has held and growth carries the next"),
    heights.OPENING: ("Down to opening height", "it must stand two weeks without scalping before opening"),
    heights.SUMMER: ("Towards summer height", "four to eight weeks after opening, when play has settled"),
}


def steps(plan: Plan) -> list[Step]:
    """The mower set, then every rung with its day."""
    rungs = [*plan.ladder, *summer_days(plan)]
    if not rungs:
        return []
    return [_mower(plan, rungs[0]), *(_step(plan, index, *rung) for index, rung in enumerate(rungs))]


def summer_days(plan: Plan) -> list[tuple[heights.Rung, date]]:
    """The rungs from opening to summer height with their days, the last as planned after opening."""
    rungs = heights.to_summer(plan.opening_mm, plan.summer_mm, plan.settings)
    if plan.opening is None or not rungs:
        return []
    hold = round(plan.settings["heights.hold.days"])
    first = max(hold, _settled_days(plan) - hold * (len(rungs) - 1))
    days = (plan.opening + timedelta(days=first + hold * n) for n in range(len(rungs)))
    return [(rung, plan.done.reached(rung.height_mm) or day) for rung, day in zip(rungs, days, strict=True)]


def _settled_days(plan: Plan) -> int:
    name = {"early": "least", "likely": "likely", "late": "most"}[plan.band]
    return round(plan.settings[f"heights.summer.{name}_days"])


def _mower(plan: Plan, first: tuple[heights.Rung, date]) -> Step:
    rung, day = first
    return step_on(
        max(plan.start, day - timedelta(days=2)),
        "mower_set-first",
        "mower_set",
        amount=rung.height_mm,
        unit="mm",
        what="Set and sharpen the mower for the first cut",
        how="A light, sharp machine; write down the bench height, and measure the cut beside it.",
        why="a blunt or heavy machine pulls young grass out",
        source="light sharp machine, boxes off at first",
        mark=COMMON_PRACTICE,
        cautions=("machinery",),
    )


def _step(plan: Plan, index: int, rung: heights.Rung, day: date) -> Step:
    what, why = _WORDS[rung.part]
    part = rung.part if rung.part in (heights.FIRST, heights.SUMMER) else "ladder"
    return step_on(
        day,
        f"cut-{part}-{height_word(rung.height_mm)}",
        "cut",
        amount=rung.height_mm,
        unit="mm",
        height_mm=rung.height_mm,
        what=f"{what}: {rung.height_mm:g} mm",
        how=_how(plan, rung, day),
        why=why,
        source=_source(plan, rung),
        mark=PUBLISHED if _from_stri(plan) else COMMON_PRACTICE,
        cautions=("machinery", "frozen_or_wet_turf"),
        gate=_gate(plan, index, rung),
    )


def height_word(height_mm: float) -> str:
    """7.0, 5.5, 5.75: one decimal, two where the quarter needs it."""
    text = f"{height_mm:.2f}"
    return text.removesuffix("0")


def _from_stri(plan: Plan) -> bool:
    return not plan.facts.is_turf and plan.facts.grass.group == "fescue"


def _source(plan: Plan, rung: heights.Rung) -> str:
    if _from_stri(plan) and rung.part == heights.DOWN:
        return "1 mm a week to 8 mm, then 0.5 mm a week to 6.5–7: STRI author, 2007"
    if plan.facts.is_autumn_turf and rung.part != heights.SUMMER:
        return f"{heights.OUTER_RANGE['autumn turf']}; {_THIRD}"
    return _THIRD


def _how(plan: Plan, rung: heights.Rung, day: date) -> str:
    how = "Dry leaf, light sharp machine" + (", boxes off." if rung.part == heights.FIRST else ".")
    supplied = plan.facts.establishment in (TURF_SUPPLIED, TURF_NURSERY)
    held = plan.after(plan.settings["heights.supplied.hold_months"] * 30.4)
    return how + (_SUPPLIED if supplied and rung.height_mm < 6 and day < held else "")


def _gate(plan: Plan, index: int, rung: heights.Rung) -> str:
    if index == 0:
        return "knitted: a corner does not lift" if plan.facts.is_turf else "12–15 mm tall and firmly rooted"
    if rung.part == heights.WINTER:
        return "dry, growing, no frost in the ground"
    return f"the last height has held {plan.settings['heights.hold.days']:g} days without scalping"
