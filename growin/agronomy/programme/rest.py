"""The first weeks after laying or sowing, and what a resting green needs over its first winter."""

from datetime import date, timedelta

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT
from growin.agronomy.programme.facts import HOLDS_WATER, SETTLES
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, step_on

_C = {"source": "", "mark": COMMON_PRACTICE}


def steps(plan: Plan) -> list[Step]:
    """Protection, joints, settling, photographs, drains, dew and the snag list."""
    made = [*_first_days(plan), *_photographs(plan), *_drains(plan)]
    return made + (_turf(plan) if plan.facts.is_turf else _seed(plan)) + _winter(plan)


def _first_days(plan: Plan) -> list[Step]:
    return [
        step_on(
            plan.start,
            "fence-on",
            "fence",
            what="Ring fence, ropes and signs up",
            how="Rope the walk-ons too; a sign that says until when keeps feet off.",
            why="one morning of feet undoes weeks of rooting",
            **_C,
        ),
        step_on(
            plan.start,
            "temporary_green-on",
            "temporary_green",
            what="Temporary green in use",
            how="Keep it cut through the opening weeks: it is needed for closing again.",
            why="the new green must be free to stay shut",
            cautions=("golf_balls",),
            **_C,
        ),
    ]


def _photographs(plan: Plan) -> list[Step]:
    days = range(0, max((plan.horizon - plan.start).days, 0) + 1, round(plan.settings["rounds.photograph"]))
    return [
        step_on(
            plan.after(day),
            f"photograph-{number:02d}",
            "photograph",
            what="Photograph from the fixed point",
            how="Same place, same height, same time of day; a 1 m frame in one corner shows cover as well.",
            why="change is seen side by side, not from memory",
            **_C,
        )
        for number, day in enumerate(days, 1)
    ]


def _drains(plan: Plan) -> list[Step]:
    """Outlets after rain until opening; more often where water is slow to leave."""
    wet = plan.facts.risk_words(HOLDS_WATER)
    every = round(plan.settings["rounds.drains_wet" if wet else "rounds.drains"])
    last = plan.opening or plan.horizon
    days = range(14, max((last - plan.start).days, 14) + 1, every)
    return [_drain(plan, number, plan.after(day), wet) for number, day in enumerate(days, 1)]


def _drain(plan: Plan, number: int, day: date, wet: str) -> Step:
    look = " Look for water that stands, and mark where." if wet else ""
    return step_on(
        day,
        f"drain_check-{number:02d}",
        "drain_check",
        what="See the drain outlets run after rain",
        how=f"All outlets, the day after rain.{look}",
        why="water that does not leave stops roots" + (f"; {wet}, so it may stay" if wet else ""),
        cautions=("water_edge", "lone_work"),
        **_C,
    )


def _turf(plan: Plan) -> list[Step]:
    return [
        step_on(
            plan.start,
            "brush-joints",
            "brush",
            what="Tuck the joints and brush sand in",
            how="From boards; level proud edges the same day. Sand of the rootzone's own grading.",
            why="a joint left open on the first day dries and shrinks",
            cautions=("lifting",),
            **_C,
        ),
        *_joint_rounds(plan),
        *_settling(plan),
    ]


def _joint_rounds(plan: Plan) -> list[Step]:
    return [
        step_on(
            plan.after(day),
            f"joint_repair-{number:02d}",
            "joint_repair",
            what="Go round the joints: tuck, fill, level",
            how="Open over 3 mm: fill with sand. Proud: lift, take out, firm back.",
            why="joints are what a ball finds first",
            **_C,
        )
        for number, day in enumerate(_settings(plan, "joints_first", "joints_second"), 1)
    ]


def _settling(plan: Plan) -> list[Step]:
    """Low spots lifted and packed, over the winter for autumn turf, two months in for turf in growth."""
    reason = plan.facts.risk_words(SETTLES)
    twice = plan.facts.is_autumn_turf or reason
    rounds = ("settling_first", "settling_second") if twice else ("settling_growth",)
    return [
        step_on(
            plan.after(day),
            f"settle-{number:02d}",
            "settle",
            what="Lift and pack what has settled",
            how="Look along the drain trenches after rain; write down the place and the mm.",
            why=f"{reason or 'trenches settle in their first wet weeks'}; packed now, a dip never shows",
            cautions=("lifting", "buried_services"),
            **_C,
        )
        for number, day in enumerate(_settings(plan, *rounds), 1)
    ]


def _settings(plan: Plan, *names: str) -> list[float]:
    return [plan.settings[f"rounds.{name}"] for name in names]


def _seed(plan: Plan) -> list[Step]:
    if plan.covered is None:
        return []
    thin = plan.seed_way(0.2)
    return [
        step_on(
            plan.not_resting(thin or plan.covered),
            "overseed-thin",
            "overseed",
            what="Overseed where it stays thin",
            how="The same mixture, by hand, into a scratched surface; only where bare ground shows.",
            why="a thin place not sown now is sown by Poa",
            source="",
            mark=OUR_JUDGEMENT,
        )
    ]


def _winter(plan: Plan) -> list[Step]:
    rest = plan.first_rest
    if rest is None or (plan.opening is not None and rest.start >= plan.opening):
        return []
    begins = max(rest.start, plan.start)
    return [
        step_on(
            begins,
            "dew-winter",
            "dew",
            what="Switch the dew and keep leaves off through the winter",
            how="On dry-leaf mornings only; not in frost. No feeding, no rolling, no sand while it rests.",
            why="a wet leaf under leaves is where microdochium patch starts",
            cautions=("frozen_or_wet_turf",),
            **_C,
        ),
        _snags(plan, rest.end),
    ]


def _snags(plan: Plan, spring: date) -> Step:
    return step_on(
        max(plan.start, spring - timedelta(days=14)),
        "defect-winter",
        "defect",
        what="Snags of the winter to the contractor",
        how="One list with photographs, places and a date by which each is answered.",
        why="what the winter showed is the contractor's until the maintenance period ends",
        **_C,
    )
