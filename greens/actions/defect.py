"""Defects that the contractor has to put right, noted in the record or logged in the diary."""

from collections.abc import Iterable, Mapping
from datetime import date

from django.db import transaction

from greens.actions import trail
from greens.models import Defect, Entry, Establishment, Membership

KIND = "defect"


@transaction.atomic
def note_defect(
    *,
    establishment: Establishment,
    by: Membership,
    what: str,
    found_on: date,
    due_on: date | None,
    place: str = "",
    put_right_on: date | None = None,
    entry: Entry | None = None,
) -> Defect:
    values = {"what": what, "place": place, "found_on": found_on, "due_on": due_on}
    values |= {"put_right_on": put_right_on} if put_right_on else {}
    row = Defect.objects.create(establishment=establishment, entry=entry, by=by, **values)
    write(row, by, f"Noted a defect: {what}", trail.as_created(values))
    return row


@transaction.atomic
def change_defect(*, defect: Defect, by: Membership, **values) -> None:
    changes = trail.change(defect, values)
    if changes:
        write(defect, by, f"Changed a defect: {defect.what}", changes)


@transaction.atomic
def put_right(*, defect: Defect, by: Membership, on: date | None) -> None:
    """Done on that day; none opens the defect again."""
    changes = trail.change(defect, {"put_right_on": on})
    if changes:
        write(defect, by, f"{'Put right' if on else 'Opened again'}: {defect.what}", changes)


def follow(
    entry: Entry, by: Membership, rebuilds: Iterable[Establishment], said: Mapping, was: Mapping
) -> None:
    """Let the record note what an entry says of a defect, once on each rebuild that it names.

    ``said`` and ``was`` are the entry's content now and before; what was changed in the record
    meanwhile stands unless the correction is about it.
    """
    if entry.kind != KIND:
        return
    named = {one.pk: one for one in rebuilds}
    noted = {row.establishment_id: row for row in entry.defects.select_related("establishment__green__club")}
    for pk in noted.keys() - named.keys():
        drop(noted[pk], by)
    for pk, rebuilt in named.items():
        values = values_of(said, rebuilt)
        if pk in noted:
            before = values_of(was, rebuilt)
            corrected = {name: value for name, value in values.items() if value != before[name]}
            change_defect(defect=noted[pk], by=by, **corrected)
        else:
            note_defect(establishment=rebuilt, by=by, entry=entry, **values)


def values_of(said: Mapping, rebuilt: Establishment) -> dict:
    """A defect as an entry tells it; without a day it is due when the contractor's maintenance ends."""
    details, on = said["details"], date.fromisoformat(said["on"])
    due = details.get("due_on") or details.get("maintenance_ends_on")
    return {
        "what": details["what"],
        "place": details.get("place", ""),
        "found_on": on,
        "due_on": date.fromisoformat(due) if due else rebuilt.maintenance_ends_on,
        "put_right_on": on if details.get("settled") else None,
    }


def withdraw(entry: Entry, by: Membership) -> None:
    """An entry taken back notes nothing in the record."""
    for row in entry.defects.select_related("establishment__green__club"):
        drop(row, by)


def drop(row: Defect, by: Membership) -> None:
    write(row, by, f"Took back a defect: {row.what}", {})
    row.delete()


def write(row: Defect, by: Membership, deed: str, changes: dict) -> None:
    green = row.establishment.green
    trail.write(club=green.club, by=by, deed=deed, row=row, green=green, changes=changes)
