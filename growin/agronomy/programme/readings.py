"""Readings as they fall due: roots from taking on, joints, levels, cover and holes towards opening."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy.criteria import BAR, criteria_for
from growin.agronomy.defaults import OUR_JUDGEMENT
from growin.agronomy.measures import measure_of
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import READING, Step, step_on

_FRESH = "fresh for 14 days, for 7 in the fortnight before a proposed day"


@dataclass(frozen=True)
class Due:
    """What one measure is read for."""

    measure: str
    what: str
    how: str
    why: str


DUE_TURF = (
    Due("rooting_depth", "Cores: depth of white roots", "5 cores, mm below the turf/rootzone face.",
        "the bar is 50 mm in 4 of 5 cores"),
    Due("hand_pull", "Pull and lift at the ten points", "Hand pull and trowel lift; both must hold.",
        "the bar is 8 of 10 points"),
    Due("joint_gap", "Gaps of the joints", "20 places, mm.", "none open over 3 mm"),
    Due("lip", "Lips under the 0.5 m edge", "20 placings, mm.", "none over 2 mm"),
    Due("dip", "Dips under the 1 m edge", "12 placings, mm, less the design contour.", "none over 4 mm"),
    Due("hole", "Three test holes", "Cut, place the liner, look again next day.", "all three hold"),
    Due("drop", "Ball drops", "9 drops: each dents and repairs flat.", "at least 8 of 9"),
)  # fmt: skip
DUE_SEED = (
    Due("rooting_depth", "Cores: depth of white roots", "5 cores, mm below the surface.",
        "the bar is 75 mm in 4 of 5 cores"),
    Due("cover", "Cover by point quadrat", "10 frames of 25 points; a photograph of a 1 m frame meanwhile.",
        "the bar is 98 % with its lower bound at 95 %"),
    *DUE_TURF[3:],
)  # fmt: skip
_EARLY = {"rooting_depth", "hand_pull", "cover"}


def steps(plan: Plan) -> list[Step]:
    """Every reading due, numbered for each measure."""
    due = DUE_TURF if plan.facts.is_turf else DUE_SEED
    often = [_step(number, day, one) for one in due for number, day in enumerate(_days(plan, one), 1)]
    return often + [
        _step(1, day, one) for one in _other_bars(plan, due) for day in _before_opening(plan)[-1:]
    ]


def _other_bars(plan: Plan, due: tuple[Due, ...]) -> list[Due]:
    """The other measures that a bar of the verdict reads: taken once, in the last whole set."""
    taken, from_seed = {one.measure for one in due}, not plan.facts.is_turf
    return [
        Due(part.measure, measure_of(part.measure).words, measure_of(part.measure).how_to, criterion.why)
        for criterion in criteria_for(from_seed)
        if criterion.kind == BAR
        for part in criterion.parts_for(from_seed)
        if part.measure not in taken
    ]


def _days(plan: Plan, one: Due) -> list[date]:
    before = _before_opening(plan)
    if one.measure not in _EARLY:
        return before
    until = before[0] if before else plan.horizon
    return [*_rounds(plan, until), *before]


def _rounds(plan: Plan, until: date) -> Iterator[date]:
    """A fortnight apart in growth, two months apart over the winter, up to the sets before opening."""
    if plan.taken is None:
        return
    day = plan.taken + timedelta(days=14)
    while day <= until - timedelta(days=7):
        yield day
        day = _next_round(plan, day)


def _next_round(plan: Plan, day: date) -> date:
    rest = plan.rest_at(day)
    if rest is None:
        spring = plan.facts.is_autumn_turf and day >= plan.spring
        return day + _rounds_of(plan, "roots_spring" if spring else "roots")
    return min(day + _rounds_of(plan, "roots_winter"), max(rest.end, day + _rounds_of(plan, "roots")))


def _rounds_of(plan: Plan, name: str) -> timedelta:
    return timedelta(days=round(plan.settings[f"rounds.{name}"]))


def _before_opening(plan: Plan) -> list[date]:
    """The days of the whole sets that count towards opening."""
    if plan.opening is None or plan.taken is None:
        return []
    days = (plan.opening - _rounds_of(plan, name) for name in ("set_first", "set_second", "set_last"))
    return [day for day in days if day >= plan.taken]


def _step(number: int, day: date, due: Due) -> Step:
    return step_on(
        day,
        f"reading-{due.measure}-{number:02d}",
        READING,
        measure=due.measure,
        what=due.what,
        how=due.how,
        why=due.why.rstrip("."),
        source=_FRESH,
        mark=OUR_JUDGEMENT,
        cautions=("buried_services",) if due.measure in {"rooting_depth", "hole"} else (),
    )
