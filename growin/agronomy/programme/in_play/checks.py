"""Looks and sheets of a year in play: water and drains before the season, analyses, photographs."""

from datetime import date, timedelta

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT
from growin.agronomy.programme.facts import HOLDS_WATER
from growin.agronomy.programme.in_play.span import Month, Span
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import INSPECTION, Step

_BEFORE = timedelta(days=21)
#: Northern months of the outlets after leaf fall, and of the first photograph of a year (our judgement).
_LEAF_FALL, _PHOTOGRAPH = 11, 2


def steps(plan: Plan, span: Span) -> list[Step]:
    """Water and drains by 1 March, outlets after leaf fall, soil and water by the laboratory, photographs."""
    by_march = [step for day in span.local_days(3, 1) for step in (_irrigation(day), _drains(plan, day))]
    analyses = [month for month in span.months if month.northern == plan.settings["in_play.analyses"]]
    return [
        *by_march,
        *(_outlets(plan, month) for month in span.months if month.northern == _LEAF_FALL),
        *(step for month in analyses for step in (_soil(month), _water(month))),
        *(_photograph(month) for month in span.months if _is_photographed(plan, month)),
    ]


def _by(day: date, chain: str, kind: str, **said) -> Step:
    return Step(
        key=f"{chain}-{day.year}-{day.month:02d}",
        kind=kind,
        earliest=day - _BEFORE,
        likely=day - timedelta(days=7),
        latest=day,
        source="by 1 March",
        mark=COMMON_PRACTICE,
        **said,
    )


def _irrigation(day: date) -> Step:
    return _by(
        day,
        "irrigation_check",
        "irrigation_check",
        what="Irrigation live again, heads audited",
        how="Every head turns and reaches; a hose that reaches the whole green.",
        why="the first dry east wind comes before anybody expects it",
    )


def _drains(plan: Plan, day: date) -> Step:
    return _by(day, "drain_check", "drain_check", **_outlet_words(plan))


def _outlets(plan: Plan, month: Month) -> Step:
    said = {"source": "after leaf fall", "mark": OUR_JUDGEMENT}
    return month.step("drain_check", "drain_check", 20, **_outlet_words(plan), **said)


def _outlet_words(plan: Plan) -> dict:
    wet = plan.facts.risk_words(HOLDS_WATER)
    return {
        "what": "See the drain outlets run after rain",
        "how": "All outlets, the day after rain; cloudy water is rootzone going down the drain.",
        "why": "water that does not leave stops roots" + (f"; {wet}, so it may stay" if wet else ""),
        "cautions": ("water_edge", "lone_work"),
    }


def _soil(month: Month) -> Step:
    return month.step(
        "inspection-soil_analysis",
        INSPECTION,
        10,
        what="Have the soil analysed",
        how="Depth, laboratory and method of last year; enter the sheet with the analyses of the green.",
        why="what the year's feed should bring, and whether the pH rises",
        source="once a year",
        mark=COMMON_PRACTICE,
        cautions=("buried_services",),
    )


def _water(month: Month) -> Step:
    return month.step(
        "water_analysis",
        "water_analysis",
        10,
        what="Have the irrigation water analysed",
        how="pH, conductivity, bicarbonate, calcium and magnesium.",
        why="hard water raises pH on new sand, and take-all follows",
        source="once a year",
        mark=COMMON_PRACTICE,
    )


def _is_photographed(plan: Plan, month: Month) -> bool:
    return (month.northern - _PHOTOGRAPH) % round(plan.settings["in_play.photograph_months"]) == 0


def _photograph(month: Month) -> Step:
    return month.step(
        "photograph",
        "photograph",
        5,
        what="Photograph from the fixed point",
        how="Same place, same height, same time of day.",
        why="change is seen side by side, not from memory",
        source="",
        mark=COMMON_PRACTICE,
    )
