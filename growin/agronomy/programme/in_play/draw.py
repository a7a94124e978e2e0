"""Every chain of a year in play, cut to the days that a plan reaches."""

import re

from growin.agronomy.programme.in_play import (
    checks,
    coring,
    dressing,
    feeding,
    first_winter,
    heights,
    readings,
    watches,
)
from growin.agronomy.programme.in_play.span import Span, span_of
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step

CHAINS = (feeding, dressing, coring, heights, watches, readings, checks, first_winter)
#: Keys of these chains name their year ("feed-2027-05-1", "walk-2026-W45", "cut-autumn-2027-5.5"), so that a
#: step is the same one in every version.
_YEAR = re.compile(r"-\d{4}-")


def is_of_a_year(key: str) -> bool:
    """Whether a step is named by its year, as all of a green in play are (and the walks of every green)."""
    return _YEAR.search(key) is not None


def steps(plan: Plan) -> list[Step]:
    """What is still to come of the year's work; none before the green is open."""
    span = span_of(plan)
    if span is None:
        return []
    return [step for chain in CHAINS for step in chain.steps(plan, span) if _lies_in(span, step)]


def _lies_in(span: Span, step: Step) -> bool:
    return span.begins <= step.likely <= span.ends and step.latest >= span.today
