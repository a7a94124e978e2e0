"""Recording sets of readings, correcting them, taking them back."""

from collections.abc import Sequence
from datetime import date, time
from uuid import UUID, uuid4

from django.db import IntegrityError, transaction
from django.utils import timezone

from greens.actions import trail
from greens.models import Club, Establishment, Green, Membership, ReadingRevision, ReadingSet
from greens.queries import area, greens, readings
from greens.queries.grounds import Grounds
from growin.agronomy.fields import TEXT, DetailError, Field, clean_field
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.measures import Measure, clean_protocol, clean_values, measure_of
from growin.agronomy.outline import clean_places
from growin.agronomy.plain_words import singular
from growin.agronomy.works import check_day

NOTE = Field("note", "Note", TEXT)
READ_FROM_A_SET = ("on", "at_time", "taken_by", "values", "places", "protocol", "note")

#: A set as it read before places were kept.
WITHOUT_PLACES = {"places": []}


class Conflict(DetailError):
    """Other readings were kept already; ``reading_set`` is what stands."""

    def __init__(self, reading_set: ReadingSet):
        self.reading_set = reading_set
        sentence = f"This form was kept before as “{reading_set}” and says otherwise now: correct that set."
        super().__init__({"reading_set": sentence})


def record_readings(
    *,
    green: Green,
    by: Membership,
    taken_by: Membership,
    measure: str,
    on: date,
    values,
    protocol: dict | None = None,
    note: str = "",
    at_time: time | None = None,
    client_id: UUID | None = None,
    places: Sequence = (),
) -> ReadingSet:
    """Keep a set of readings; one that arrived before under its ``client_id`` is returned as it stands.

    ``places`` say where on the green each value was taken, as :class:`ReadingSet` keeps them.

    Raises
    ------
    DetailError
        With one sentence for everything that cannot be kept.
    Conflict
        When something else was kept under this ``client_id``.
    """
    given = {"on": on, "at_time": at_time, "taken_by": taken_by, "values": values}
    given |= {"protocol": protocol or {}, "note": note, "places": places}
    establishment = greens.establishment_on(green, on)
    kept = judged(green=green, establishment=establishment, measure=_known(measure), given=given)
    known = the_same(green, measure, client_id, kept) if client_id else None
    if known:
        return known
    client_id = client_id or uuid4()
    try:
        return _keep(green, by, measure, establishment, kept, client_id)
    except IntegrityError:
        return the_same(green, measure, client_id, kept)


def the_same(green: Green, measure: str, client_id: UUID, kept: dict) -> ReadingSet | None:
    """The set that came before under this number, or none; raises Conflict when it says otherwise."""
    row = readings.arrived(green.club, client_id)
    if row is None:
        return None
    first = row.revisions.order_by("number").first()
    told = WITHOUT_PLACES | (first.as_it_was if first else as_it_reads(row))
    came = {name: trail.plain(value) for name, value in kept.items()}
    if (row.green_id, row.measure, told) != (green.pk, measure, came):
        raise Conflict(row)
    return row


@transaction.atomic
def _keep(
    green: Green,
    by: Membership,
    measure: str,
    establishment: Establishment | None,
    kept: dict,
    client_id: UUID,
) -> ReadingSet:
    row = ReadingSet.objects.create(
        club=green.club,
        green=green,
        establishment=establishment,
        measure=measure,
        logged_by=by,
        client_id=client_id,
        **kept,
    )
    changes = trail.as_created({name: kept[name] for name in ("on", "values", "protocol")})
    trail.write(
        club=green.club,
        by=by,
        deed=f"Read: {row.get_measure_display()}",
        row=row,
        green=green,
        changes=changes,
    )
    return row


def _known(measure: str) -> Measure:
    try:
        return measure_of(measure)
    except ImpossibleValue as refused:
        raise DetailError({"measure": str(refused)}) from None


def judged(
    *,
    green: Green,
    establishment: Establishment | None,
    measure: Measure,
    given: dict,
    grounds: Grounds | None = None,
) -> dict:
    """What can be kept of ``given``, cleaned: the one judge for form, queue and import.

    ``grounds`` know the green's rebuilds where many sets are judged at once.

    Raises
    ------
    DetailError
        With one sentence for everything that cannot be.
    """
    kept, errors = dict(given), {}
    checks = {
        "on": lambda: _day(green, establishment or first_of(green, grounds), measure, given["on"]),
        "values": lambda: clean_values(measure, given["values"]),
        "protocol": lambda: clean_protocol(measure, given["protocol"]),
        "note": lambda: clean_field(NOTE, given["note"]),
        "taken_by": lambda: _member(green.club, given["taken_by"]),
    }
    for name, check in checks.items():
        try:
            kept[name] = check()
        except ImpossibleValue as refused:
            errors[name] = str(refused)
        except DetailError as refused:
            errors |= refused.errors
    if "places" in given and "values" not in errors:
        errors |= _clean_places(green, measure, kept)
    if errors:
        raise DetailError(errors)
    return kept


def _clean_places(green: Green, measure: Measure, kept: dict) -> dict[str, str]:
    """Put the places in order beside the cleaned values; what is wrong with them, if anything."""
    outline = area.outline(green) if any(kept["places"]) else None
    try:
        place = singular(measure.places_words)
        kept["places"] = clean_places(kept["places"], len(kept["values"]), outline, place)
    except ImpossibleValue as refused:
        return {"places": str(refused)}
    return {}


def first_of(green: Green, grounds: Grounds | None) -> Establishment | None:
    """The first rebuild on record."""
    return grounds.rebuild_on(green, date.min) if grounds else greens.first_establishment(green)


def _day(green: Green, first: Establishment | None, measure: Measure, on: date) -> date:
    """The day, when this can have been read on it; a green without a recorded build may be read any day."""
    check_day(
        measure.words,
        on,
        today=green.club.local_today(),
        needs_turf=measure.needs_turf and first is not None,
        established_on=first and first.established_on,
        building_from=first and first.works_started_on,
    )
    return on


def _member(club: Club, member: Membership) -> Membership:
    if member.club_id != club.pk:
        raise DetailError({"taken_by": f"{member} does not belong to {club}; name somebody who does."})
    return member


def as_it_reads(row: ReadingSet) -> dict:
    """A set as its revision keeps it."""
    return {name: trail.plain(getattr(row, name)) for name in READ_FROM_A_SET}


@transaction.atomic
def correct_readings(*, reading_set: ReadingSet, by: Membership, **given) -> ReadingSet:
    """Keep a new reading of the set; the old one stays readable as a revision.

    ``given`` holds what differs of on, at_time, taken_by, values, protocol and note.

    Raises
    ------
    DetailError
        With one sentence for everything that cannot be kept.
    """
    row = ReadingSet.objects.select_for_update(of=("self",)).select_related("green__club", "taken_by")
    row = row.get(pk=reading_set.pk)
    if row.taken_back_at:
        raise DetailError({"": "This set of readings was taken back; record it anew instead."})
    before, given = as_it_reads(row), {name: getattr(row, name) for name in READ_FROM_A_SET} | given
    establishment = greens.establishment_on(row.green, given["on"])
    kept = judged(green=row.green, establishment=establishment, measure=measure_of(row.measure), given=given)
    changes = trail.change(row, kept)
    if changes:
        _keep_revision(row, before, by, establishment)
        deed = f"Corrected: {row.get_measure_display()}"
        trail.write(club=row.green.club, by=by, deed=deed, row=row, green=row.green, changes=changes)
    return row


def _keep_revision(row: ReadingSet, before: dict, by: Membership, establishment) -> None:
    ReadingRevision.objects.create(reading_set=row, number=row.revision, as_it_was=before, replaced_by=by)
    row.revision += 1
    row.establishment = establishment
    row.save(update_fields=["revision", "establishment"])


@transaction.atomic
def take_back(*, reading_set: ReadingSet, by: Membership) -> bool:
    """Mark a set as taken back, never delete it; False when it was already."""
    rows = ReadingSet.objects.filter(pk=reading_set.pk, taken_back_at=None)
    taken = rows.update(taken_back_at=timezone.now(), taken_back_by=by)
    if taken:
        deed = f"Took back: {reading_set.get_measure_display()} of {reading_set.on.isoformat()}"
        trail.write(club=by.club, by=by, deed=deed, row=reading_set, green=reading_set.green)
    return bool(taken)
