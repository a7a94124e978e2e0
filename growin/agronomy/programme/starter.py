"""The starter: once, raked in before turf or seed; in a closed time, once feeding is allowed again."""

from growin.agronomy.defaults import COMMON_PRACTICE
from growin.agronomy.programme.feeding import after_closed_time, cautions, moved_words
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, step_on

KEY = "feed-starter"
_WHY = "roots meet what the soil test says is short"
_BY_TEST = "phosphorus only where the soil test is low."


def steps(plan: Plan) -> list[Step]:
    """One step; what was done stays on the day of laying or sowing."""
    day = plan.start if KEY in plan.done.steps else after_closed_time(plan, plan.start)
    phosphorus = _p_kg_ha(plan)
    return [
        step_on(
            day,
            KEY,
            "feed",
            amount=phosphorus or None,
            unit="kg P/ha" if phosphorus else "",
            **(_before(plan) if day == plan.start else _later(plan)),
            source="21–43 kg P/ha by soil test, for seed: Michigan extension",
            mark=COMMON_PRACTICE,
            cautions=cautions(plan),
        )
    ]


def _before(plan: Plan) -> dict[str, str]:
    before, surface = ("pre-turfing", "turf") if plan.facts.is_turf else ("pre-sowing", "seed")
    return {
        "what": f"Light {before} fertiliser, raked in",
        "how": f"Once, on the prepared surface before the {surface}; {_BY_TEST}",
        "why": _WHY,
    }


def _later(plan: Plan) -> dict[str, str]:
    return {
        "what": "What the soil test says is short, once feeding is allowed",
        "how": f"Once, light, on a dry leaf or watered in; {_BY_TEST}",
        "why": _WHY + moved_words(plan),
    }


def _p_kg_ha(plan: Plan) -> float:
    """The setting, or the club's own limit of a year where that is lower."""
    wanted, limit = plan.settings["feeding.starter.p_kg_ha"], plan.facts.year_limit_p_kg_ha
    return wanted if limit is None else min(wanted, limit)
