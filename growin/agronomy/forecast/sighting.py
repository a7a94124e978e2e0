"""Readings as the forecast sees them: how many places passed, at what time on the clock."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from statistics import fmean

from growin.agronomy.climate import Climate
from growin.agronomy.criteria import CRITERIA
from growin.agronomy.facts import Evidence, ReadingFacts, newest
from growin.agronomy.forecast.curves import CURVED, DEPTH
from growin.agronomy.forecast.family import MENDED_BARS, Family
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.measures import measure_of
from growin.agronomy.plain_words import day
from growin.agronomy.rules import MET, NOT_MET, BoundRule, CountRule, LargestRule
from growin.agronomy.verdict import fresh_days

#: A bar counts as read when these of its measures are; what else it has is taken when it is there.
MAIN = frozenset({"rooting_depth", "hand_pull", "hole", "drop", "cover", "joint_gap", "lip", "dip"})


@dataclass(frozen=True)
class Sighting:
    """One measure on one day: ``passed`` of ``places``, or for roots their ``mean_mm`` in so many cores.

    ``bar`` is the criterion's place among the family's, ``clock`` what had run by that day.
    """

    measure: str
    bar: int
    on: date
    clock: float
    passed: float
    places: int
    mean_mm: float = 0.0


@dataclass(frozen=True)
class Standing:
    """How the criteria stand on the newest readings.

    ``waiting``: for each bar of the family, whether it is still to be read as met;
    ``over_on``: the day joints or levels were last read over their limit; ``broken``: criteria to be mended;
    ``read_on``: the day on which those that wait were last read, None while one of them never was.
    """

    waiting: tuple[bool, ...]
    over_on: date | None
    broken: tuple[str, ...]
    read_on: date | None = None


def check_readings(readings: Sequence[ReadingFacts], established_on: date) -> None:
    """Refuse an unknown measure, or a reading of turf before there was any.

    Raises
    ------
    ImpossibleValue
        With the measure or the day.
    """
    for one in readings:
        if measure_of(one.measure).needs_turf and one.on < established_on:
            what = f"day of the reading “{measure_of(one.measure).words}”"
            right = f"on or after {day(established_on, one.on)}, when the green was laid or sown"
            raise ImpossibleValue(what, one.on.isoformat(), right)


def sightings_of(
    evidence: Evidence,
    family: Family,
    climate: Climate,
    established_on: date,
    as_of: date,
    settings: Mapping[str, float],
) -> tuple[Sighting, ...]:
    """Every reading known on a day that says how far a criterion has come."""
    seen = []
    for one in evidence.readings:
        part = _part_of(one.measure, family, evidence.from_seed)
        if part is None or one.on > as_of or not one.values:
            continue
        clock = climate.sum_between(family.clock, established_on, one.on)
        seen.append(_sighting(one, part[0], part[1].rule(settings), clock))
    return tuple(seen)


def _part_of(measure: str, family: Family, from_seed: bool):
    for place, key in enumerate(family.bars):
        for part in CRITERIA[key].parts_for(from_seed):
            if part.measure == measure and measure in (*CURVED, DEPTH):
                return place, part
    return None


def _sighting(one: ReadingFacts, bar: int, rule, clock: float) -> Sighting:
    passed, places = _counted(rule, one.values)
    mean_mm = fmean(one.values) if one.measure == DEPTH else 0.0
    return Sighting(one.measure, bar, one.on, clock, passed, places, mean_mm)


def _counted(rule, values: Sequence) -> tuple[int, int]:
    if isinstance(rule, BoundRule):
        return sum(one["hits"] for one in values), sum(one["points"] for one in values)
    if isinstance(rule, CountRule):
        return sum(rule.passes(one) for one in values), len(values)
    if isinstance(rule, LargestRule):
        return sum(one <= rule.limit for one in values), len(values)
    return sum(bool(one) is rule.wanted for one in values), len(values)


def standing(evidence: Evidence, family: Family, as_of: date, settings: Mapping[str, float]) -> Standing:
    """What still waits for a reading that meets it, what was read over its limit, what is broken.

    Height waits on the clock only while none is known; known, it follows its steps.
    """
    known = any(one.on <= as_of for one in evidence.heights.heights)
    judged = {
        key: tuple(_judged(key, evidence, as_of, settings))
        for key in {*family.bars, *MENDED_BARS} - {"height"}
    }
    fresh = fresh_days(evidence, as_of, settings)
    waiting = tuple(
        not known if key == "height" else not _is_met(judged[key], as_of, fresh) for key in family.bars
    )
    over = [_over_on(judged[key]) for key in ("joints", "levels") if key in family.bars]
    broken = tuple(key for key in MENDED_BARS if _over_on(judged[key]))
    over_on = max((one for one in over if one), default=None)
    wait = [judged.get(key, ()) for key, waits in zip(family.bars, waiting, strict=True) if waits]
    return Standing(waiting, over_on, broken, _read_on(wait))


def _read_on(bars: Sequence[Sequence]) -> date | None:
    """A round goes on until each of its bars was read: one never read may be read any day."""
    last = [max((on for _, on, _ in judged if on), default=None) for judged in bars]
    return None if None in last else max(last, default=None)


def _judged(key: str, evidence: Evidence, as_of: date, settings: Mapping[str, float]):
    """Measure, day and state of each part of a criterion that was read."""
    for part in CRITERIA[key].parts_for(evidence.from_seed):
        rule = part.rule(settings)
        found = newest(
            evidence, part.measure, as_of, count=rule.count, pool_days=settings["criterion.pool_days"]
        )
        yield part.measure, found and found.on, found and rule.judge(found.values).state


def _is_met(judged: Sequence, as_of: date, fresh: float) -> bool:
    for measure, on, state in judged:
        if on is None and measure in MAIN:
            return False
        if on is not None and (state != MET or (as_of - on).days > fresh):
            return False
    return True


def _over_on(judged: Sequence) -> date | None:
    return max((on for _, on, state in judged if state == NOT_MET), default=None)
