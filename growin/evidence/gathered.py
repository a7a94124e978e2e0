"""From rows to facts: everything the criteria are judged on, in a fixed number of queries.

Readings, cuts and checks of the diary, weather, settings and decisions are read once for all
greens asked about, so that a list of greens costs what one green costs.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from greens.models import Club, Establishment
from greens.queries import cuts, gate, readings, weather
from greens.queries import settings as constants
from greens.queries.settings import Frozen
from growin.agronomy import gates, heights
from growin.agronomy.facts import Evidence, GrowthFacts, HeightFacts, HeightOnDay, ReadingFacts
from growin.models import Proposal
from growin.queries import decision as decisions
from growin.queries import proposal as proposals
from growin.queries.remembered import kept_while_the_frame_stands

# A check in the diary says the same as a reading: kind of entry → its detail, the measure it answers.
SAID_BY_CHECKS = {
    "irrigation_check": ("live", "irrigation_live"),
    "drain_check": ("running", "drains_running"),
}
LOOKS_BACK_DAYS = 60
Settings = Mapping[str, float]


@dataclass(frozen=True)
class Gathered:
    """What is known of one establishment on a day, and the constants in force for it then."""

    evidence: Evidence
    settings: Settings


@dataclass(frozen=True)
class Weather:
    """Measured daily means and soil at 100 mm, °C by day."""

    air_c: Mapping[date, float]
    soil_c: Mapping[date, float]


@dataclass(frozen=True)
class Frame:
    """What the day's logging leaves alone: constants by green, opening days in mind and rebuilds for whose
    opening the adviser has spoken, by rebuild, and the weather."""

    in_force: Mapping[int, Settings]
    proposed: Mapping[int, date]
    agreed: frozenset[int]
    air: Weather


def gather(
    club: Club,
    establishments: Sequence[Establishment],
    as_of: date,
    settings: Settings | None = None,
    instead: Settings | None = None,
    since: date | None = None,
) -> dict[int, Gathered]:
    """The evidence of each establishment by its id, of its whole record or what counts ``since`` a day.

    ``settings`` replaces all constants in force, ``instead`` some of them. While a day is proposed for
    a green, its constants are those of the moment of the proposal.
    """
    logged = _by_establishment(cuts.logged(establishments, as_of, since))
    read = _by_establishment(readings.until(establishments, as_of, since))
    if since:
        _heights_joined(club, establishments, as_of, since, logged, read)
    around = frame_of(club, establishments, as_of, since)
    gathered = {}
    for one in establishments:
        counted = {**(settings or around.in_force[one.green_id]), **(instead or {})}
        opens, day = gate_of(club, one, counted, one.pk in around.agreed), around.proposed.get(one.pk)
        facts = _evidence(one, read[one.pk], logged[one.pk], around.air, counted, day, opens)
        gathered[one.pk] = Gathered(facts, counted)
    return gathered


@kept_while_the_frame_stands
def frame_of(
    club: Club, establishments: Sequence[Establishment], as_of: date, since: date | None = None
) -> Frame:
    """Proposals, constants, decisions, the adviser's word and the weather; five queries."""
    in_mind = proposals.standing_in(club, as_of)
    frozen = {one.green_id: _moment(in_mind[one.pk]) for one in establishments if one.pk in in_mind}
    return Frame(
        constants.in_force_by_green(club, as_of, {one.green_id for one in establishments}, frozen),
        decisions.proposed_days(club, as_of) | {pk: one.opening_on for pk, one in in_mind.items()},
        frozenset(gate.agreed(club, establishments, as_of)),
        _weather(club, establishments, as_of, since),
    )


def _heights_joined(club: Club, establishments, as_of: date, since: date, logged: dict, read: dict) -> None:
    """Heights before ``since`` say nothing of how it is held now; where none is newer, all of them stand."""
    asleep = []
    for one in establishments:
        if any(row.kind in cuts.HEIGHTS for row in logged[one.pk]):
            read[one.pk] = [row for row in read[one.pk] if row.measure != "height" or row.on >= since]
        elif one.established_on and one.established_on < since:
            asleep.append(one)
    if asleep:
        logged.update(_by_establishment(cuts.logged(asleep, as_of)))


def _moment(proposal: Proposal) -> Frozen:
    return Frozen(proposal.made_on, proposal.made_at)


def _by_establishment(rows: Iterable) -> defaultdict[int, list]:
    by_id = defaultdict(list)
    for row in rows:
        by_id[row.establishment_id].append(row)
    return by_id


def _weather(club: Club, establishments: Sequence[Establishment], as_of: date, since: date | None) -> Weather:
    started = min((one.established_on or as_of for one in establishments), default=as_of)
    first = min(max(started, since or started), as_of - timedelta(days=LOOKS_BACK_DAYS))
    days = weather.days(club, first, as_of).filter(is_estimated=False)
    rows = list(days.values_list("on", "mean_c", "soil_100_c"))
    return Weather(
        {on: float(mean) for on, mean, _ in rows if mean is not None},
        {on: float(soil) for on, _, soil in rows if soil is not None},
    )


def _evidence(establishment, read, logged, air: Weather, settings: Settings, proposed, opens) -> Evidence:
    return Evidence(
        establishment=establishment.kind,
        readings=(*_readings(read), *_checks(logged)),
        heights=HeightFacts(tuple(_heights(logged)), opening_height_mm(establishment, settings)),
        growth=_growth(read, logged, air),
        gate_on=opens and opens.day,
        gate_words=opens.words if opens else "",
        proposed_on=proposed,
    )


def gate_of(
    club: Club, establishment: Establishment, settings: Settings, adviser_agrees: bool
) -> gates.Gate | None:
    """The hard gate of an establishment; none before it is laid or sown."""
    if establishment.established_on is None:
        return None
    return gates.earliest_opening(
        establishment=establishment.kind,
        species=establishment.species,
        established_on=establishment.established_on,
        latitude_deg=float(club.latitude_deg),
        settings=settings,
        adviser_agrees=adviser_agrees,
    )


def opening_height_mm(establishment: Establishment, settings: Settings) -> float:
    """The height at which this green opens, mm."""
    summer, others = establishment.summer_height_mm, establishment.others_height_mm
    return heights.opening_height_mm(
        establishment.species,
        settings,
        summer_mm=None if summer is None else float(summer),
        others_mm=None if others is None else float(others),
    )


def _readings(read) -> list[ReadingFacts]:
    return [ReadingFacts(row.measure, row.on, tuple(row.values), row.protocol) for row in read]


def _checks(logged) -> list[ReadingFacts]:
    found = []
    for entry in logged:
        detail, measure = SAID_BY_CHECKS.get(entry.kind, ("", ""))
        if detail in entry.details:
            found.append(ReadingFacts(measure, entry.on, (entry.details[detail],)))
    return found


def _heights(logged) -> list[HeightOnDay]:
    found = []
    for entry in logged:
        height = _height(entry.kind, entry.on, entry.details)
        if height:
            found.append(height)
    return found


def _height(kind: str, on: date, details: Mapping) -> HeightOnDay | None:
    """A cut stands at its bench height; a mower that was set says a height only where it was measured."""
    if kind == "cut":
        return HeightOnDay(on, details["height_mm"], scalped=bool(details.get("scalped")))
    measured = details.get("measured_height_mm")
    return HeightOnDay(on, measured, measured=True) if measured else None


def _growth(read, logged, air: Weather) -> GrowthFacts:
    soil = {row.on: _mean(row.values) for row in read if row.measure == "soil_temperature_100"}
    clippings = {entry.on: worth for entry in logged if (worth := _clippings(entry)) is not None}
    boxed = {row.on: _mean(row.values) for row in read if row.measure == "growth_clippings"}
    return GrowthFacts(air.air_c, {**air.soil_c, **soil}, {**clippings, **boxed})


def _clippings(entry) -> float | None:
    """Clippings of a cut in ml/m²; with the boxes off there was nothing to empty."""
    if entry.kind != "cut":
        return None
    return entry.details.get("clippings_ml_m2", 0 if entry.details.get("boxes") == "off" else None)


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)
