"""The chain of opening: the gate, the inspections, and the first weeks in play."""

from datetime import timedelta

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import GATE, INSPECTION, Step, step_on

OPENING_KEY = "inspection-opening"
#: How the keys of steps begin that only a green in play calls for.
IN_PLAY = ("recheck-", "hole_changed-first")
_STOP = "Footprinting, torn joints, over 5 % thin or wilting: close, alternate or move the hole."


def steps(plan: Plan) -> list[Step]:
    """The gate, and what follows once the climate brings an opening day."""
    if plan.opening is None:
        return [_gate(plan)]
    return [_gate(plan), _criteria(plan), _opening(plan), *_rechecks(plan), _hole(plan)]


def _gate(plan: Plan) -> Step:
    return step_on(
        plan.gate.day,
        "gate-opening",
        GATE,
        what="The earliest day the green may open",
        how=f"{plan.gate.words[0].upper()}{plan.gate.words[1:]}.",
        why="new turf looks ready well before it is; opened while immature it takes twice as long to heal",
        source="USGA 2014; BIGGA 2004",
        mark=OUR_JUDGEMENT,
    )


def _criteria(plan: Plan) -> Step:
    return step_on(
        max(plan.start, plan.opening - timedelta(days=round(plan.settings["rounds.set_last"]))),
        "inspection-criteria",
        INSPECTION,
        what="Inspect against every opening criterion",
        how="A whole set of readings within seven days of the proposed day, walked with the adviser.",
        why="the worst bar decides, and only fresh readings count",
        source="a reading is fresh for 7 days in the last fortnight",
        mark=OUR_JUDGEMENT,
        gate="every bar has a reading",
    )


def _opening(plan: Plan) -> Step:
    return step_on(
        plan.opening,
        OPENING_KEY,
        INSPECTION,
        amount=plan.opening_mm,
        unit="mm",
        height_mm=plan.opening_mm,
        what="Opening, if every bar is met and the committee decides it",
        how="Alternate days for two to three weeks; no competitions or trolleys at first; closed in the wet.",
        why="gate, roots, height and growth come together about this day; readings fix it, not the plan",
        source="the date must not be fixed months ahead: USGA; staged start: club diary",
        mark=COMMON_PRACTICE,
        gate=f"{plan.gate.words}; every opening criterion met",
        cautions=("golf_balls",),
    )


def _rechecks(plan: Plan) -> list[Step]:
    return [
        step_on(
            plan.opening + timedelta(days=days),
            f"recheck-{days:02d}",
            INSPECTION,
            what=f"Look again, day {days} in play",
            how=_STOP,
            why="young turf that declines in play may not recover that season",
            source="days 7, 14 and 28",
            mark=OUR_JUDGEMENT,
        )
        for days in (round(plan.settings[f"rounds.recheck_{which}"]) for which in ("first", "second", "last"))
    ]


def _hole(plan: Plan) -> Step:
    return step_on(
        plan.opening,
        "hole_changed-first",
        "hole_changed",
        what="Move the hole every day in play",
        how="Start in the firmest third; pitch marks repaired the same evening.",
        why="wear has to be spread before it shows",
        source="",
        mark=COMMON_PRACTICE,
    )
