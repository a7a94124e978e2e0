"""Which measures are due on a green, and what each is for."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from greens.models import Club, Establishment, Green, ReadingSet
from greens.queries import area, greens, readings
from greens.queries import settings as constants
from growin.agronomy.criteria import BAR, GROWTH, HELD, Criterion, criteria_for
from growin.agronomy.measures import MEASURES, Measure
from growin.agronomy.outline import Outline
from growin.agronomy.plain_words import counted
from growin.agronomy.rules import MET
from growin.agronomy.verdict import Finding, fresh_days
from growin.evidence.verdict import Judged, judged, verdict_of
from growin.queries import programme

# Measures that serve a criterion by way of its judgement beside the parts.
BESIDE = {"height": HELD, "growth_clippings": GROWTH, "soil_temperature_100": GROWTH}


@dataclass(frozen=True)
class ToRead:
    """A measure with the criterion it serves, the day it was last read, and whether that is too long ago."""

    measure: Measure
    serves: Criterion | None
    last: date | None
    is_due: bool = False

    @property
    def takes(self) -> str:
        """How many are usually taken: "5 cores"."""
        return counted(self.measure.usual_count, self.measure.places_words)


@dataclass(frozen=True)
class Section:
    """Measures under one heading."""

    heading: str
    words: str
    measures: tuple[ToRead, ...]


def criterion_served(measure: str, criteria: Sequence[Criterion], from_seed: bool) -> Criterion | None:
    """The first of these criteria that the measure serves on a green from seed, or from turf."""
    for one in criteria:
        also = BESIDE.get(measure)
        if any(part.measure == measure for part in one.parts_for(from_seed)) or (also and one.also == also):
            return one
    return None


def serves(establishment: Establishment | None, measure: str) -> Criterion | None:
    """The criterion of an establishment that a measure serves."""
    if establishment is None:
        return None
    from_seed = not establishment.is_turf
    return criterion_served(measure, criteria_for(from_seed), from_seed)


def finding_for(reading_set: ReadingSet, as_of: date) -> Finding | None:
    """What the criterion that this set serves comes to on a day; none for a measure that serves none."""
    criterion = serves(reading_set.establishment, reading_set.measure)
    if criterion is None:
        return None
    verdict = verdict_of(reading_set.establishment, as_of)
    return next(one for one in verdict.findings if one.criterion == criterion.key)


@dataclass(frozen=True)
class Asked:
    """What is asked of a set about to be taken: how many values, for which criterion, by which rules.

    ``confidence`` and ``half_width_share`` are those of :func:`summarise`; the place of a value is
    shown on the ``outline`` of the ``green``.
    """

    green: Green
    outline: Outline | None

    count: int
    serves: Criterion | None
    rules: tuple
    confidence: float
    half_width_share: float


def asked(green: Green, measure: Measure, as_of: date) -> Asked:
    """The usual count of a measure, or more where the rule of its criterion asks for more."""
    in_force = constants.in_force(green.club, as_of, green)
    return _asked(green, greens.current_establishment(green), measure, in_force, area.outline(green))


def asked_on_each(club: Club, measure: Measure, as_of: date) -> dict[int, Asked]:
    """What is asked of a set on each green of the club, by the green's id; five queries."""
    rebuilds, outlines, rows = greens.current_establishments(club), area.outlines(club), greens.of(club)
    in_force = constants.in_force_by_green(club, as_of, outlines)
    return {
        row.pk: _asked(row, rebuilds.get(row.pk), measure, in_force[row.pk], outlines[row.pk]) for row in rows
    }


def _asked(
    green: Green,
    establishment: Establishment | None,
    measure: Measure,
    in_force: Mapping[str, float],
    outline: Outline | None,
) -> Asked:
    rules = rules_of(establishment, measure, in_force)
    return Asked(
        green=green,
        outline=outline,
        count=max([measure.usual_count, *(one.count for one in rules)]),
        serves=serves(establishment, measure.key),
        rules=rules,
        confidence=in_force["summary.confidence"],
        half_width_share=in_force["summary.half_width_share"],
    )


def rules_of(establishment: Establishment | None, measure: Measure, in_force: Mapping[str, float]) -> tuple:
    """The rules by which a measure is judged on such a rebuild; none for one that serves no bar."""
    criterion = serves(establishment, measure.key)
    parts = criterion.parts_for(not establishment.is_turf) if criterion else ()
    return tuple(one.rule(in_force) for one in parts if one.measure == measure.key)


def steps_answered(reading_set: ReadingSet) -> list[programme.Standing]:
    """Steps of the programme that asked for such a reading about that day."""
    if reading_set.establishment is None or reading_set.taken_back_at:
        return []
    return programme.readings_due([reading_set.establishment], reading_set.measure, reading_set.on)


def sections(green: Green, as_of: date) -> list[Section]:
    """The measures of a green: what is due first, then what is fresh, watched, kept beside."""
    establishment = greens.current_establishment(green)
    last = readings.last_days(green)
    if establishment is None:
        return [
            Section("Measures", "", tuple(ToRead(one, None, last.get(one.key)) for one in MEASURES.values()))
        ]
    known = judged(_with_green(establishment, green), as_of)
    return _sections([_to_read(one, known, last) for one in _possible(known)])


def sections_of_club(club: Club, as_of: date) -> list[Section]:
    """Every measure of the club: what a bar waits for on some green first; two queries."""
    rebuilds = greens.current_establishments(club).values()
    last = readings.last_days_of_club(club)
    listed = [ToRead(one, _served_on_any(rebuilds, one), last.get(one.key)) for one in MEASURES.values()]
    bars, others = _bars_and_others(listed)
    parted = (("For opening", "The verdict of a green waits for these.", bars), ("Kept beside", "", others))
    return [Section(heading, words, tuple(some)) for heading, words, some in parted if some]


def _served_on_any(rebuilds: Iterable[Establishment], measure: Measure) -> Criterion | None:
    return next(filter(None, (serves(one, measure.key) for one in rebuilds)), None)


def _bars_and_others(listed: Sequence[ToRead]) -> tuple[list[ToRead], list[ToRead]]:
    bars = [one for one in listed if one.serves and one.serves.kind == BAR]
    return bars, [one for one in listed if one not in bars]


def _with_green(establishment: Establishment, green: Green) -> Establishment:
    establishment.green = green
    return establishment


def _possible(known: Judged) -> list[Measure]:
    laid = known.establishment.established_on
    is_laid = laid is not None and laid <= known.as_of
    return [one for one in MEASURES.values() if is_laid or not one.needs_turf]


def _to_read(measure: Measure, known: Judged, last: Mapping[str, date]) -> ToRead:
    criterion = serves(known.establishment, measure.key)
    on = last.get(measure.key)
    fresh = fresh_days(known.evidence, known.as_of, known.settings)
    is_old = on is None or (known.as_of - on).days > fresh
    return ToRead(measure, criterion, on, criterion is not None and is_old and not _spared(measure, known))


def _spared(measure: Measure, known: Judged) -> bool:
    """Any one sign of growth is enough: the others are not asked for while it is met."""
    findings = {one.criterion: one.state for one in known.verdict.findings}
    return BESIDE.get(measure.key) == GROWTH and findings["growth"] == MET


def _sections(measures: Sequence[ToRead]) -> list[Section]:
    bars = [one for one in measures if one.serves and one.serves.kind == BAR]
    watched = [one for one in measures if one.serves and one.serves.kind != BAR]
    parted = (
        ("Due now", "The verdict waits for these.", [one for one in bars if one.is_due]),
        ("Read lately", "Fresh enough for the verdict.", [one for one in bars if not one.is_due]),
        ("Watched", "Shown on the readiness page; they never hold a green back.", watched),
        ("Kept beside", "", [one for one in measures if one.serves is None]),
    )
    return [Section(heading, words, tuple(some)) for heading, words, some in parted if some]
