"""A rebuild of a green, from the first day of the works."""

from datetime import date

from django.db import transaction

from greens.actions import trail
from greens.models import Establishment, Green, Membership
from greens.queries import greens


@transaction.atomic
def start_establishment(
    *,
    green: Green,
    by: Membership,
    kind: str,
    species: str,
    works_started_on: date,
    established_on: date | None = None,
    **more,
) -> Establishment:
    """The next rebuild of the green; earlier ones stay with all that hangs on them.

    ``more`` may hold summer_height_mm, others_height_mm, maintenance_ends_on, seed_rate_g_m2.
    """
    Green.objects.select_for_update().get(pk=green.pk)
    before = greens.current_establishment(green)
    values = {"kind": kind, "species": species, "works_started_on": works_started_on}
    values |= {"established_on": established_on} | more
    row = Establishment.objects.create(green=green, number=before.number + 1 if before else 1, **values)
    deed = f"Entered the rebuild of {green.name}, {works_started_on.year}"
    changes = trail.as_created(values)
    trail.write(club=green.club, by=by, deed=deed, row=row, green=green, changes=changes)
    return row


@transaction.atomic
def change_establishment(*, establishment: Establishment, by: Membership, **values) -> None:
    green = establishment.green
    deed = f"Changed the rebuild of {green.name}, {establishment.works_started_on.year}"
    trail.save_changes(row=establishment, values=values, club=green.club, by=by, deed=deed, green=green)
