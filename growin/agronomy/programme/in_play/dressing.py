"""Sand of a year in play: light passes in growth, within the season's most, none in winter."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta

from growin.agronomy.defaults import PUBLISHED
from growin.agronomy.programme import dressing as growing_in
from growin.agronomy.programme.in_play.span import Month, Span, slots
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, spanned, step_on
from growin.agronomy.season import in_winter

_YEAR = timedelta(days=365)


def steps(plan: Plan, span: Span) -> list[Step]:
    """Passes to come as long as the last twelve months stay within the season's most."""
    given = [*plan.done.dressings, *(one for one in growing_in.passes(plan) if one[0] > span.today)]
    kg_m2, most = plan.settings["dressing.pass_kg_m2"], plan.settings["dressing.season_high_kg_m2"]
    made = []
    for key, days in _turns(plan, span):
        year = sum(kg for on, kg in given if days[1] - _YEAR < on <= days[1])
        if year + kg_m2 <= most:
            given.append((days[1], kg_m2))
            made.append(_pass(plan, key, days, kg_m2))
    return made


def _turns(plan: Plan, span: Span) -> Iterator[tuple[str, tuple[date, date, date]]]:
    season = plan.settings["in_play.dress_from"], plan.settings["in_play.dress_until"]
    count = round(plan.settings["in_play.dressings_a_month"])
    for month in span.months:
        days = _growing_days(plan, month) if month.is_within(*season) else []
        for number, turn in enumerate(slots(days, count) if count else [], 1):
            if span.begins <= turn[1] <= span.ends and turn[2] >= span.today:
                yield f"dressing-{month.name}-{number}", turn


def _growing_days(plan: Plan, month: Month) -> Sequence[date]:
    least = plan.settings["climate.growth_stops_c"]
    return [
        day
        for day in month.days
        if plan.climate.normal_c(day) >= least and not in_winter(day, plan.latitude_deg)
    ]


def _pass(plan: Plan, key: str, days: tuple[date, date, date], kg_m2: float) -> Step:
    likely = step_on(
        days[1],
        key,
        "dressing",
        **growing_in.said(plan, kg_m2),
        what="Light topdressing",
        why="thatch is thinned with sand as it grows; a layer that is left is there for years",
        source=growing_in.LIGHT_SOURCE,
        mark=PUBLISHED,
        gate="dry, growing, and not under stress",
    )
    return spanned(likely, [replace(likely, earliest=on, likely=on, latest=on) for on in (days[0], days[2])])
