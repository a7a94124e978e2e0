"""Cutting and dressing still to do before the green may open, as chains of least holds."""

from collections.abc import Mapping, Sequence
from datetime import date

from growin.agronomy.facts import HeightOnDay
from growin.agronomy.forecast.chain import Chain, Hold, Run, stood_since, what_remains
from growin.agronomy.heights import descent, first_cut_mm, opening_height_mm, seed_drop, turf_drop
from growin.agronomy.programme.facts import GreenFacts
from growin.agronomy.season import next_local_day

Settings = Mapping[str, float]
_HAIR_MM = 0.01


def opening_mm(facts: GreenFacts, settings: Settings) -> float:
    """The height at which the green opens, mm."""
    return opening_height_mm(
        facts.species, settings, summer_mm=facts.summer_height_mm, others_mm=facts.others_height_mm
    )


def cutting_to_come(
    facts: GreenFacts,
    heights: Sequence[HeightOnDay],
    past: Run,
    as_of: date,
    settings: Settings,
    bench_counts: bool = True,
) -> Chain:
    """Heights still to go down, and the days the opening height must be held.

    Where heights are known it goes on from the last, step by step; where none is, by the fewest steps.
    Unless the bench counts, the opening height is held from the first day it was measured on the green.
    """
    known = sorted((one for one in heights if one.on <= as_of), key=lambda one: (one.on, one.measured))
    if not known:
        return what_remains((_until_first_cut(facts, settings), *_quickest_holds(facts, settings)), past)
    held = _held(known, facts, settings)
    at_opening = _kept(known[-1], opening_mm(facts, settings), settings)
    if at_opening and not bench_counts:
        held = [one for one in held if one.measured]
    since = (min((one.on for one in held), default=as_of) - facts.established_on).days
    return stood_since(_holds_below(known[-1], facts, settings), past, since)


def dressing_to_come(facts: GreenFacts, over_on: date | None, past: Run, settings: Settings) -> Chain:
    """Dressings before joints and levels can be met: all of them, or one more since they were read over."""
    hold = Hold(int(settings["forecast.dressing.hold_days"]), settings["heights.hold.leaf_c_days"])
    if over_on is not None:
        return stood_since((hold,), past, (over_on - facts.established_on).days)
    passes = int(settings["forecast.dressing.passes"])
    return what_remains((_until_first_cut(facts, settings), *(hold,) * passes), past)


def _until_first_cut(facts: GreenFacts, settings: Settings) -> Hold:
    if facts.is_turf:
        return Hold(0, own=settings["pace.knitted_c_days"])
    group = facts.grass.group
    leaf = settings[f"emergence.{group}.c_days"] + settings[f"heights.first_cut.seed_{group}_leaf_c_days"]
    return Hold(int(facts.grass.emergence_days[0]), leaf)


def _quickest_holds(facts: GreenFacts, settings: Settings) -> tuple[Hold, ...]:
    """The fewest steps that never take more than a third of the leaf, down to a bench setting that may open.

    The prior already holds what heights usually take; where none is known only the least is asked.
    """
    first = first_cut_mm(facts.establishment, facts.species, settings)
    start = settings["heights.winter_mm"] if facts.is_autumn_turf else first
    wanted = opening_mm(facts, settings) + settings["criterion.height.bench_allowance_mm"]
    below = descent(start, wanted, lambda height_mm: height_mm / 3)
    return (*(_step_to(height, facts, settings) for height in below), _opening_hold(settings))


def _step_to(height_mm: float, facts: GreenFacts, settings: Settings) -> Hold:
    """The hold before a height may be taken; autumn turf goes under its winter height from spring on."""
    low = facts.is_autumn_turf and height_mm < settings["heights.winter_mm"]
    month = int(settings["pace.rest.until_month"])
    spring = next_local_day(facts.established_on, month, 1, facts.latitude_deg) if low else None
    days, leaf = settings["heights.hold.days"], settings["heights.hold.leaf_c_days"]
    return Hold(int(days), leaf, not_before=spring)


def _opening_hold(settings: Settings) -> Hold:
    return Hold(int(settings["criterion.height.days"]))


def _holds_below(last: HeightOnDay, facts: GreenFacts, settings: Settings) -> tuple[Hold, ...]:
    if _kept(last, opening_mm(facts, settings), settings):
        return (_opening_hold(settings),)
    drop = turf_drop(settings) if facts.is_turf else seed_drop(facts.species, settings)
    below = descent(last.height_mm, opening_mm(facts, settings), drop)
    return (*(_step_to(height, facts, settings) for height in below), _opening_hold(settings))


def _kept(one: HeightOnDay, at_mm: float, settings: Settings) -> bool:
    allowed = settings[f"criterion.height.{'tolerance_mm' if one.measured else 'bench_allowance_mm'}"]
    return one.height_mm <= at_mm + allowed + _HAIR_MM


def _held(known: Sequence[HeightOnDay], facts: GreenFacts, settings: Settings) -> list[HeightOnDay]:
    """The latest heights through which that of the last cut, or the opening height, was held unbroken."""
    wanted = opening_mm(facts, settings)
    at_opening = _kept(known[-1], wanted, settings)
    run = [known[-1]]
    for one in reversed(known):
        held = _kept(one, wanted, settings) if at_opening else one.height_mm <= known[-1].height_mm + _HAIR_MM
        if not held or one.scalped:
            break
        run.append(one)
    return run
