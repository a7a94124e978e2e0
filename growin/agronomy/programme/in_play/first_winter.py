"""The first winter in play: extra rest days, and the state of every day written down."""

from growin.agronomy.defaults import COMMON_PRACTICE
from growin.agronomy.programme.in_play.span import Month, Span
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import INSPECTION, Step
from growin.agronomy.season import next_local_day

#: The winter begins with November; its four months begin within so many days.
_FROM, _DAYS = 11, 120
_SOURCE = "first winter of a green in play"


def steps(plan: Plan, span: Span) -> list[Step]:
    """From the first November in play to February; every later winter is like that of the other greens."""
    begins = next_local_day(plan.done.opened_on, _FROM, 1, plan.latitude_deg)
    first = [one for one in span.months if 0 <= (one.first - begins).days < _DAYS]
    return [*(_rest(month) for month in first), *(_state(month) for month in first if month.first == begins)]


def _rest(month: Month) -> Step:
    return month.step(
        "inspection-rest_days",
        INSPECTION,
        2,
        what="Plan its rest days of the month",
        how="A day or two a week more than the other greens, wet days first; the temporary green ready.",
        why="roots of one summer do not carry the wear of a whole winter",
        source=_SOURCE,
        mark=COMMON_PRACTICE,
        cautions=("golf_balls",),
    )


def _state(month: Month) -> Step:
    return month.step(
        "inspection-day_state",
        INSPECTION,
        1,
        what="From today write down the state of the green every day",
        how="Open, frosted, thawing, waterlogged, rested or temporary, before the first player. Shut on "
        "white frost, and in a thaw until a probe finds no frozen layer to rooting depth.",
        why="days kept off against the old greens are what the rebuild is judged by",
        source="common practice; USGA on frost",
        mark=COMMON_PRACTICE,
        cautions=("frozen_or_wet_turf",),
    )
