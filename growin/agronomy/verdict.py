"""From evidence to a verdict: each criterion's finding, and whether the green may open.

The worst bar decides: not met before not known before met. A hard gate not yet passed
stands as a bar not met, with its date. The verdict advises; it never overrides a closure.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy.criteria import BAR, GROWTH, HELD, Criterion, Part, criteria_for
from growin.agronomy.facts import Evidence, Newest, newest
from growin.agronomy.growth_bar import judge_growth
from growin.agronomy.height_bar import heights_until, judge_height_held
from growin.agronomy.measures import MEASURES
from growin.agronomy.plain_words import counted, day
from growin.agronomy.rules import MET, NOT_KNOWN, NOT_MET, Judgement

READY, NOT_READY = "ready", "not ready"
_VERDICTS = {MET: READY, NOT_MET: NOT_READY, NOT_KNOWN: NOT_KNOWN}
_WORST_FIRST = (NOT_MET, NOT_KNOWN, MET)
GATE = "gate"

Settings = Mapping[str, float]


@dataclass(frozen=True)
class Finding:
    """What one criterion comes to: ``state``, the sentences behind it, what would settle it,
    ``on`` the day of its oldest reading in use, and whether that is ``stale``; ``because`` are
    those of the sentences that made the state."""

    criterion: str
    words: str
    kind: str
    state: str
    sentences: tuple[str, ...]
    settles: tuple[str, ...] = ()
    on: date | None = None
    stale: bool = False
    because: tuple[str, ...] = ()


@dataclass(frozen=True)
class Verdict:
    """``state`` is ready, not ready or not known; ``unmet`` the three weightiest bars that hold
    it back, ``next_inspection`` the day the next set of readings is due."""

    state: str
    findings: tuple[Finding, ...]
    unmet: tuple[Finding, ...]
    next_inspection: date

    @property
    def bars(self) -> tuple[Finding, ...]:
        """The findings that decide."""
        return tuple(one for one in self.findings if one.kind == BAR)


@dataclass(frozen=True)
class _Piece:
    """One part's judgement with the day it was read."""

    judgement: Judgement
    on: date | None = None
    stale: bool = False


def worst(states: Iterable[str]) -> str:
    """Not met before not known before met; met when there is none."""
    found = set(states)
    return next((one for one in _WORST_FIRST if one in found), MET)


def fresh_days(evidence: Evidence, as_of: date, settings: Settings) -> int:
    """How many days a reading stays fresh: fewer when a proposed opening day is near."""
    near = settings["criterion.near_opening_days"]
    proposed = evidence.proposed_on
    if proposed is not None and 0 <= (proposed - as_of).days <= near:
        return int(settings["criterion.fresh_days_near_opening"])
    return int(settings["criterion.fresh_days"])


def judge(criterion: Criterion, evidence: Evidence, as_of: date, settings: Settings) -> Finding:
    """The finding of one criterion on the evidence known on a day.

    ``settings`` holds every key of :data:`growin.agronomy.criteria_defaults.DEFAULTS`.

    Raises
    ------
    ImpossibleValue
        For settings that contradict each other.
    """
    pieces = [_judge_part(one, evidence, as_of, settings) for one in criterion.parts_for(evidence.from_seed)]
    pieces += _judged_besides(criterion, evidence, as_of, settings)
    read_on = [one.on for one in pieces if one.on is not None]
    state = worst(one.judgement.state for one in pieces)
    return Finding(
        criterion.key,
        criterion.words,
        criterion.kind,
        state,
        tuple(one.judgement.words for one in pieces),
        tuple(one.judgement.settles for one in pieces if one.judgement.settles),
        min(read_on, default=None),
        any(one.stale for one in pieces),
        tuple(one.judgement.words for one in pieces if one.judgement.state == state),
    )


def _judge_part(part: Part, evidence: Evidence, as_of: date, settings: Settings) -> _Piece:
    rule = part.rule(settings)
    pool_days = settings["criterion.pool_days"]
    found = newest(evidence, part.measure, as_of, count=rule.count, pool_days=pool_days)
    if found is None:
        return _Piece(_unread(part.measure, rule.count))
    fresh = fresh_days(evidence, as_of, settings)
    if (as_of - found.on).days > fresh:
        return _Piece(_stale(part.measure, found.on, as_of, fresh, rule.count), found.on, stale=True)
    return _Piece(_other_protocol(part, found) or rule.judge(found.values), found.on)


def _unread(measure: str, count: int) -> Judgement:
    return Judgement(NOT_KNOWN, f"{MEASURES[measure].words}: not read yet.", _take(measure, count))


def _stale(measure: str, on: date, as_of: date, fresh: int, count: int) -> Judgement:
    words = f"{MEASURES[measure].words}: the reading of {day(on, as_of)} is older than {fresh} days."
    return Judgement(NOT_KNOWN, words, _take(measure, count))


def _take(measure: str, count: int) -> str:
    of = MEASURES[measure]
    if count == 1:
        return f"{of.words}: to be looked at."
    return f"{of.words}: {counted(count, of.places_words)} to be read."


def _other_protocol(part: Part, found: Newest) -> Judgement | None:
    if part.same_protocol is None:
        return None
    key, only, words = part.same_protocol
    if all(one.get(key, only) == only for one in found.protocols):
        return None
    return Judgement(NOT_KNOWN, f"{MEASURES[part.measure].words} read another way. {words}")


def _judged_besides(
    criterion: Criterion, evidence: Evidence, as_of: date, settings: Settings
) -> list[_Piece]:
    if criterion.also == GROWTH:
        return [_Piece(judge_growth(evidence.growth, as_of, evidence.gate_on, settings))]
    return [_judge_held(evidence, as_of, settings)] if criterion.also == HELD else []


def _judge_held(evidence: Evidence, as_of: date, settings: Settings) -> _Piece:
    known = heights_until(evidence, as_of)
    fresh = fresh_days(evidence, as_of, settings)
    if known and (as_of - known[-1].on).days > fresh:
        return _Piece(_stale("height", known[-1].on, as_of, fresh, 3), known[-1].on, stale=True)
    return _Piece(judge_height_held(evidence, as_of, settings), known[-1].on if known else None)


def judge_gate(evidence: Evidence, as_of: date) -> Finding | None:
    """The hard gate as a bar; None when there is none."""
    if evidence.gate_on is None:
        return None
    passed = as_of >= evidence.gate_on
    why = f" ({evidence.gate_words})" if evidence.gate_words else ""
    words = f"{'Passed on' if passed else 'Not before'} {day(evidence.gate_on, as_of)}{why}."
    return Finding(
        GATE, "Time since laying or sowing", BAR, MET if passed else NOT_MET, (words,), because=(words,)
    )


def judge_all(evidence: Evidence, as_of: date, settings: Settings) -> Verdict:
    """The verdict of one green on the evidence known on a day.

    Raises
    ------
    ImpossibleValue
        For settings that contradict each other.
    """
    gate = judge_gate(evidence, as_of)
    judged = [judge(one, evidence, as_of, settings) for one in criteria_for(evidence.from_seed)]
    findings = ([gate] if gate else []) + judged
    bars = [one for one in findings if one.kind == BAR]
    return Verdict(
        _VERDICTS[worst(one.state for one in bars)],
        tuple(findings),
        tuple(sorted((one for one in bars if one.state != MET), key=_weight))[:3],
        next_inspection(bars, evidence, as_of, settings),
    )


def _weight(finding: Finding) -> int:
    """Not met before not known; within each the order of the table stays."""
    return _WORST_FIRST.index(finding.state)


def next_inspection(bars: Sequence[Finding], evidence: Evidence, as_of: date, settings: Settings) -> date:
    """The day the next set of readings is due: at once when a bar is not known.

    Before the gate it is the first day whose readings are still fresh when the gate opens.
    """
    read = [one.on for one in bars if one.on is not None]
    if evidence.gate_on is not None and as_of < evidence.gate_on:
        return max(as_of, evidence.gate_on - timedelta(days=int(settings["criterion.fresh_days"])))
    if not read or any(one.state == NOT_KNOWN for one in bars):
        return as_of
    every = min(int(settings["criterion.inspect_days"]), fresh_days(evidence, as_of, settings))
    return max(as_of, min(read) + timedelta(days=every))
