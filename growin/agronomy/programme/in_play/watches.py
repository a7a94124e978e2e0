"""What a green in play is watched for: microdochium patch, take-all, dry patch, fairy rings."""

from datetime import date, timedelta

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT
from growin.agronomy.programme.in_play.span import Month, Span
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step
from growin.agronomy.species import WITH_BENT

_SHARE = "Write down what is seen with its share of the green."


def steps(plan: Plan, span: Span) -> list[Step]:
    """A walk a week in the cool, wet months; the watches of summer month by month."""
    made = [_walk(monday) for month in _months(plan, span, "microdochium") for monday in _mondays(month)]
    made += [_take_all(month) for month in _months(plan, span, "take_all") if _may_have_take_all(plan, month)]
    return made + [_dry_patch(month) for month in _months(plan, span, "dry_patch")]


def _months(plan: Plan, span: Span, name: str) -> list[Month]:
    season = plan.settings[f"in_play.{name}_from"], plan.settings[f"in_play.{name}_until"]
    return [month for month in span.months if month.is_within(*season)]


def _mondays(month: Month) -> list[date]:
    return [day for day in month.days if day.weekday() == 0]


def _walk(monday: date) -> Step:
    year, week, _ = monday.isocalendar()
    return Step(
        key=f"walk-{year}-W{week:02d}",
        kind="walk",
        earliest=monday,
        likely=monday,
        latest=monday + timedelta(days=6),
        what="Walk the green for microdochium patch",
        how=f"Early, while the dew lies; edges, shade and wet places first. {_SHARE}",
        why="it starts in mild, wet weather and runs under leaves and snow; found early it is small",
        source="weekly in the cool, wet months",
        mark=COMMON_PRACTICE,
        cautions=("lone_work",),
    )


def _may_have_take_all(plan: Plan, month: Month) -> bool:
    years = plan.settings["in_play.take_all_years"]
    until = plan.done.opened_on + timedelta(days=round(365 * years))
    return plan.facts.species in WITH_BENT and month.first <= until


def _take_all(month: Month) -> Step:
    return month.step(
        "watch-take_all",
        "watch",
        8,
        what="Look for take-all in the bent",
        how=f"Sunken bronze rings, a hand wide at first, roots dark and short. {_SHARE} No lime, and no "
        "sand that brings any.",
        why="new sand has nothing that holds it back; rising pH, limy sand and hard water bring it on",
        source="first full seasons on new sand with bent",
        mark=COMMON_PRACTICE,
    )


def _dry_patch(month: Month) -> Step:
    return month.step(
        "watch-dry_patch",
        "watch",
        12,
        what="Look for dry patch and fairy rings",
        how=f"A core from where it wilts first: dry sand, white threads, a musty smell. {_SHARE}",
        why="sand that has once dried out sheds water; found early a hose and a fork are enough",
        source="the first full summers on new sand",
        mark=OUR_JUDGEMENT,
        cautions=("buried_services", "drought_rules"),
    )
