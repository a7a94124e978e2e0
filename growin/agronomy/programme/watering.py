"""The chain of water: to the drains at first, then less and deeper; by hand where spring winds dry."""

from datetime import date, timedelta

from growin.agronomy.defaults import COMMON_PRACTICE
from growin.agronomy.programme.facts import DRIES_SOON
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, step_on
from growin.agronomy.season import next_local_day

FIRST_WEEKS = 3
_C = {"source": "", "mark": COMMON_PRACTICE}


def steps(plan: Plan) -> list[Step]:
    """Irrigation checked, the first weeks' water, and hand watering in the first dry spring."""
    return [*_checks(plan), *_first_weeks(plan), *_hand(plan), _analysis(plan)]


def _check(day: date, key: str, what: str, why: str) -> Step:
    return step_on(
        day,
        key,
        "irrigation_check",
        what=what,
        how="Every head turns and reaches; a hose that reaches the whole green.",
        why=why,
        **_C,
    )


def _checks(plan: Plan) -> list[Step]:
    made = [
        _check(
            plan.start,
            "irrigation_check-start",
            "Irrigation live and a hose at the green",
            f"water must be there before the first {'roll' if plan.facts.is_turf else 'seed'} goes down",
        )
    ]
    spring = next_local_day(plan.start, 3, 1, plan.latitude_deg)
    if plan.start < spring <= plan.horizon:
        why = "the first dry east wind comes before anybody expects it"
        made.append(_check(spring, "irrigation_check-spring", "Irrigation live again, heads audited", why))
    return made


def _first_weeks(plan: Plan) -> list[Step]:
    words = _turf_words if plan.facts.is_turf else _seed_words
    return [
        step_on(
            plan.after(7 * week),
            f"water-week-{week + 1:02d}",
            "water",
            what=words(week)[0],
            how=words(week)[1],
            why="roots follow water down; a dry day in these weeks costs a fortnight",
            cautions=("drought_rules",),
            **_C,
        )
        for week in range(FIRST_WEEKS)
    ]


def _turf_words(week: int) -> tuple[str, str]:
    if week == 0:
        return (
            "Water through to the drains",
            "The day it is laid, until the drains run; then keep turf and face moist.",
        )
    return (
        "Keep turf and face moist",
        "Lift a corner: the face between turf and rootzone should be moist, not wet.",
    )


def _seed_words(week: int) -> tuple[str, str]:
    if week == 0:
        return "Keep the seedbed moist", "Light and often, a fine spray; it never dries and never runs."
    return (
        "Water a little less often, a little deeper",
        "As seedlings root: let the top just dry between waterings.",
    )


def _hand(plan: Plan) -> list[Step]:
    """From the spring to opening, a fortnight apart; a week where the green dries soon."""
    if plan.taken is None or plan.opening is None:
        return []
    dry = plan.facts.risk_words(DRIES_SOON)
    every = plan.settings["rounds.hand_water_dry" if dry else "rounds.hand_water"]
    first = max(plan.spring, plan.after(28))
    days = plan.in_rounds("hand_water", first, lambda _: every, plan.opening)
    return [_hand_step(number, day, dry) for number, day in enumerate(days, 1)]


def _hand_step(number: int, day: date, dry: str) -> Step:
    return step_on(
        day,
        f"hand_water-{number:02d}",
        "hand_water",
        what="Feel for dry places and water them by hand",
        how="High ground and edges first; at or under 12 % moisture young turf wants water.",
        why=f"{dry}, so it dries first" if dry else "east winds dry young turf unseen",
        cautions=("drought_rules",),
        **_C,
    )


def _analysis(plan: Plan) -> Step:
    return step_on(
        plan.after(28),
        "water_analysis-first",
        "water_analysis",
        what="Have the irrigation water analysed",
        how="pH, conductivity and bicarbonate, once, before the first dry season.",
        why="hard water raises pH on new sand, and take-all follows",
        **_C,
    )


def soil_watch_day(plan: Plan) -> date | None:
    """When the morning soil temperature starts to be read: a fortnight before growth resumes."""
    if not plan.facts.is_autumn_turf or plan.first_rest is None:
        return None
    return max(plan.start, plan.first_rest.end - timedelta(days=round(plan.settings["rounds.soil_watch"])))
