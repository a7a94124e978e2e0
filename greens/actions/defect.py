"""Defects that the contractor has to put right."""

from datetime import date

from django.db import transaction

from greens.actions import trail
from greens.models import Defect, Establishment, Membership


@transaction.atomic
def note_defect(
    *, establishment: Establishment, by: Membership, what: str, found_on: date, due_on: date, place: str = ""
) -> Defect:
    values = {"what": what, "place": place, "found_on": found_on, "due_on": due_on}
    row = Defect.objects.create(establishment=establishment, by=by, **values)
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


def write(row: Defect, by: Membership, deed: str, changes: dict) -> None:
    green = row.establishment.green
    trail.write(club=green.club, by=by, deed=deed, row=row, green=green, changes=changes)
