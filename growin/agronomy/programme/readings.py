"""Readings as they fall due: roots from taking on, joints, levels, cover and holes towards opening."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from growin.agronomy.criteria import BAR, DEFAULTS, criteria_for
from growin.agronomy.defaults import OUR_JUDGEMENT
from growin.agronomy.measures import measure_of
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import READING, Step, step_on

_FRESH = "fresh for 14 days, for 7 in the fortnight before a proposed day"


@dataclass(frozen=True)
class Due:
    """What one measure is read for; ``how`` and ``why`` take the figures of its bar by their keys."""

    measure: str
    what: str
    how: str
    why: str


DUE_TURF = (
    Due("rooting_depth", "Cores: depth of white roots",
        "{rooting_turf[cores_of]:g} cores, mm below the turf/rootzone face.",
        "the bar is {rooting_turf[depth_mm]:g} mm in {rooting_turf[cores_at_least]:g} of "
        "{rooting_turf[cores_of]:g} cores"),
    Due("hand_pull", "Pull and lift at the {rooting_turf[points_of]:g} points",
        "Hand pull and trowel lift; both must hold.",
        "the bar is {rooting_turf[points_at_least]:g} of {rooting_turf[points_of]:g} points"),
    Due("joint_gap", "Gaps of the joints", "{joints[places_of]:g} places, mm.",
        "none open over {joints[open_mm]:g} mm"),
    Due("lip", "Lips under the 0.5 m edge", "{levels[lip_placings_of]:g} placings, mm.",
        "none over {levels[lip_mm]:g} mm"),
    Due("dip", "Dips under the 1 m edge",
        "{levels[dip_placings_of]:g} placings, mm, less the design contour.",
        "none over {levels[dip_mm]:g} mm"),
    Due("hole", "Test holes", "{holes[hold_of]:g} holes: cut, place the liner, look again next day.",
        "all of them hold"),
    Due("drop", "Ball drops", "{holes[drops_of]:g} drops: each dents and repairs flat.",
        "at least {holes[drops_at_least]:g} of {holes[drops_of]:g}"),
)  # fmt: skip
DUE_SEED = (
    Due("rooting_depth", "Cores: depth of white roots",
        "{rooting_seed[cores_of]:g} cores, mm below the surface.",
        "the bar is {rooting_seed[depth_mm]:g} mm in {rooting_seed[cores_at_least]:g} of "
        "{rooting_seed[cores_of]:g} cores"),
    Due("cover", "Cover by point quadrat",
        "{cover[frames_of]:g} frames of {cover[points_of]:g} points; a photograph of a 1 m frame meanwhile.",
        "the bar is {cover[share_percent]:g} % with its lower bound at {cover[lower_percent]:g} %"),
    *DUE_TURF[4:],
)  # fmt: skip
_EARLY = {"rooting_depth", "hand_pull", "cover"}


def steps(plan: Plan) -> list[Step]:
    """Every reading due, numbered for each measure."""
    bars = bars_of(plan)
    due = [said(one, bars) for one in (DUE_TURF if plan.facts.is_turf else DUE_SEED)]
    often = [_step(number, day, one) for one in due for number, day in enumerate(_days(plan, one), 1)]
    return often + [
        _step(1, day, one) for one in _other_bars(plan, due) for day in _before_opening(plan)[-1:]
    ]


def bars_of(plan: Plan) -> dict[str, dict[str, float]]:
    """Every constant of the criteria as it counts for this plan, by criterion and name."""
    bars: dict[str, dict[str, float]] = defaultdict(dict)
    for key, one in DEFAULTS.items():
        criterion, _, name = key.removeprefix("criterion.").partition(".")
        bars[criterion][name] = plan.settings.get(key, one.value)
    return bars


def said(due: Due, bars: dict[str, dict[str, float]]) -> Due:
    """The same with the figures of its bar."""
    words = {name: getattr(due, name).format_map(bars) for name in ("what", "how", "why")}
    return replace(due, **words)


def _other_bars(plan: Plan, due: Sequence[Due]) -> list[Due]:
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
