"""Draws the whole programme of one green: every chain, on three courses of the weather."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from growin.agronomy.climate import Climate
from growin.agronomy.programme import (
    aeration,
    dressing,
    feeding,
    in_play,
    ladder,
    opening,
    pace,
    readings,
    rest,
    rolling,
    starter,
    walking,
    watering,
)
from growin.agronomy.programme.done import Done
from growin.agronomy.programme.facts import GreenFacts
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, in_order, spanned

CHAINS = (rest, watering, starter, feeding, dressing, ladder, rolling, aeration, walking, readings, opening)
#: Chains of rounds: a round is due after the one before it and before the one after.
ROUNDS = frozenset({"feed", "dressing", "roll", "reading", "hand_water", "drain_check", "photograph"})
#: Steps that stand beyond the horizon of the weekly work.
FAR = frozenset({"aerate", "cut", "gate", "inspection"})
NOTHING_DONE = Done()


def draw_programme(
    facts: GreenFacts,
    climate: Climate,
    settings: Mapping[str, float],
    *,
    until: date | None = None,
    done: Done = NOTHING_DONE,
) -> tuple[Step, ...]:
    """Dated steps of one green, by likely day.

    Parameters
    ----------
    facts : GreenFacts
    climate : Climate
        Normals, and what was measured so far.
    settings : mapping
        Plain values of :data:`growin.agronomy.programme.TABLES`, the club's own where it has any.
    until : date, optional
        Leave out steps likely after this day. Without it the programme reaches six weeks beyond the
        likely opening; coring and heights stand as far as they go. Of a green in play the year's work
        follows, ``in_play.ahead_days`` beyond the day of the drawing.
    done : Done, optional
        What was done and found so far: the chains go on from there.

    Returns
    -------
    tuple of Step
        ``likely`` on the normals; ``earliest`` and ``latest`` on weather a little warmer and colder
        (``climate.shift_c``) and at the ends of the published bands.
    """
    likely, *others = (_drawn(plan) for plan in _courses(facts, climate, settings, done))
    steps = in_order(_spanned(step, others) for step in likely.values())
    window = timedelta(days=round(settings["rounds.window"]))
    return tuple(step for step in _in_turn(steps, window) if until is None or step.likely <= until)


def likely_plan(
    facts: GreenFacts, climate: Climate, settings: Mapping[str, float], done: Done = NOTHING_DONE
) -> Plan:
    """The plan on the normals alone, for whoever needs its days rather than its steps."""
    return Plan(facts, climate, settings, done=done)


def likely_steps(plan: Plan) -> dict[str, Step]:
    """The steps of one course of the weather by their key, without the span of their days."""
    return _drawn(plan)


def _courses(
    facts: GreenFacts, climate: Climate, settings: Mapping[str, float], done: Done
) -> tuple[Plan, Plan, Plan]:
    shift = settings["climate.shift_c"]
    return (
        Plan(facts, climate, settings, pace.LIKELY, done),
        Plan(facts, climate.shifted(shift), settings, pace.EARLY, done),
        Plan(facts, climate.shifted(-shift), settings, pace.LATE, done),
    )


def _drawn(plan: Plan) -> dict[str, Step]:
    steps = [step for chain in CHAINS for step in chain.steps(plan)]
    growing_in = [step for step in steps if step.kind in FAR or step.likely <= plan.horizon]
    return {step.key: step for step in (*growing_in, *in_play.steps(plan))}


def _spanned(step: Step, others: list[dict[str, Step]]) -> Step:
    return spanned(step, [drawn[step.key] for drawn in others if step.key in drawn])


def _in_turn(steps: tuple[Step, ...], window: timedelta) -> tuple[Step, ...]:
    """Rounds of one chain held between the round before and the round after, and within a window."""
    chains: dict[str, list[Step]] = {}
    for step in steps:
        chains.setdefault(_chain_of(step), []).append(step)
    held = (
        step
        for name, chain in chains.items()
        for step in (_held(chain, window) if name in _rounds_of(chain) else chain)
    )
    return in_order(held)


def _chain_of(step: Step) -> str:
    """The round of a step; one named by its year stands alone, its days are those of the calendar."""
    in_turn = step.kind in ROUNDS and not in_play.is_of_a_year(step.key)
    return step.key.rpartition("-")[0] if in_turn else step.key


def _rounds_of(chain: list[Step]) -> set[str]:
    return {_chain_of(step) for step in chain if step.kind in ROUNDS}


def _held(chain: list[Step], window: timedelta) -> list[Step]:
    last = len(chain) - 1
    return [
        replace(
            step,
            earliest=max(step.earliest, _after(chain[n - 1], step, window)) if n else step.earliest,
            latest=min(step.latest, _before(chain[n + 1], step, window)) if n < last else step.latest,
        )
        for n, step in enumerate(chain)
    ]


def _after(previous: Step, step: Step, window: timedelta) -> date:
    """The day after the round before, within the window, and no later than the step's own likely day."""
    return min(max(previous.likely + timedelta(days=1), step.likely - window), step.likely)


def _before(following: Step, step: Step, window: timedelta) -> date:
    return max(min(following.likely - timedelta(days=1), step.likely + window), step.likely)
