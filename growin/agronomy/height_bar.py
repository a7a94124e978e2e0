"""Whether the opening height has been held: the height measured on the green, not the bench."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from growin.agronomy.facts import Evidence, HeightOnDay
from growin.agronomy.plain_words import amount, counted, day, for_over_a_year
from growin.agronomy.rules import MET, NOT_KNOWN, NOT_MET, Judgement

Settings = Mapping[str, float]
_MEASURE = "Measure the height on the green."


def heights_until(evidence: Evidence, as_of: date) -> list[HeightOnDay]:
    """All heights up to a day, oldest first: those of the cuts and those read as a measure."""
    read = [
        HeightOnDay(one.on, sum(one.values) / len(one.values), measured=True)
        for one in evidence.readings
        if one.measure == "height"
    ]
    known = [one for one in (*evidence.heights.heights, *read) if one.on <= as_of]
    return sorted(known, key=lambda one: (one.on, one.measured))


def judge_height_held(evidence: Evidence, as_of: date, settings: Settings) -> Judgement:
    """Whether the opening height was held for ``criterion.height.days`` without scalping.

    The days run from the first *measured* height at or under the opening height (with the
    tolerance), through every later height, to the last one known.
    """
    opening_mm = evidence.heights.opening_height_mm
    if opening_mm is None:
        return Judgement(NOT_KNOWN, "The opening height is not set.", "Set the opening height.")
    known = heights_until(evidence, as_of)
    if not known:
        return Judgement(NOT_KNOWN, "No height of cut is known.", _MEASURE)
    run = _unbroken(known, opening_mm, _scalped_days(evidence, as_of), settings)
    if not run:
        return Judgement(NOT_MET, _broken_words(known[-1], opening_mm, settings))
    return _judge_run(run, known, opening_mm, as_of, settings)


def _scalped_days(evidence: Evidence, as_of: date) -> set[date]:
    read = {one.on for one in evidence.readings if one.measure == "scalping" and any(one.values)}
    cut = {one.on for one in evidence.heights.heights if one.scalped}
    return {on for on in read | cut if on <= as_of}


def _unbroken(
    known: Sequence[HeightOnDay], opening_mm: float, scalped: set[date], settings: Settings
) -> list[HeightOnDay]:
    """The latest heights, oldest first, that all kept to the opening height, since any scalping."""
    since = max(scalped, default=date.min)
    run: list[HeightOnDay] = []
    for one in reversed(known):
        if one.on <= since or not _kept(one, opening_mm, settings):
            break
        run.insert(0, one)
    return run


def _kept(one: HeightOnDay, opening_mm: float, settings: Settings) -> bool:
    key = "tolerance_mm" if one.measured else "bench_allowance_mm"
    return one.height_mm <= opening_mm + settings[f"criterion.height.{key}"] + 1e-9


def _broken_words(last: HeightOnDay, opening_mm: float, settings: Settings) -> str:
    how = "measured" if last.measured else "on the bench"
    days = f"{settings['criterion.height.days']:g} days"
    return (
        f"{amount(last.height_mm, 'mm', places=2)} {how} on {day(last.on)}; "
        f"{amount(opening_mm, 'mm', places=2)} wanted for {days} without scalping."
    )


def _by_bench(
    run: list[HeightOnDay], known: list[HeightOnDay], height: str, wanted: int, as_of: date
) -> Judgement:
    """At opening height on the bench; what was measured last, and from when the days will count."""
    before = [one for one in known if one.measured]
    last = (
        f", {amount(before[-1].height_mm, 'mm', places=2)} measured on {day(before[-1].on)}" if before else ""
    )
    began = for_over_a_year(run[0].on, as_of) or f"since {day(run[0].on)}"
    words = f"Cut at the opening height of {height} by the bench only, {began}{last}."
    return Judgement(
        NOT_KNOWN, words, f"{_MEASURE} Its {counted(wanted, 'days')} count from the first day so measured."
    )


def _judge_run(
    run: list[HeightOnDay], known: list[HeightOnDay], opening_mm: float, as_of: date, settings: Settings
) -> Judgement:
    measured = [one.on for one in run if one.measured]
    height, wanted = amount(opening_mm, "mm", places=2), int(settings["criterion.height.days"])
    if not measured:
        return _by_bench(run, known, height, wanted, as_of)
    held, due = (run[-1].on - measured[0]).days, measured[0] + timedelta(days=wanted)
    days = f"for {counted(held, 'days')}, since {day(measured[0], as_of)}"
    since = for_over_a_year(measured[0], run[-1].on) or days
    words = f"Opening height of {height} held {since}; {wanted} wanted."
    if held >= wanted:
        return Judgement(MET, words)
    if due > as_of:
        return Judgement(NOT_MET, f"{words} {day(due, as_of)} at the earliest.")
    return Judgement(NOT_KNOWN, words, _MEASURE)
