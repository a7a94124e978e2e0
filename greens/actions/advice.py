"""Dated advice of the adviser."""

from datetime import date

from django.db import transaction

from greens.actions import trail
from greens.models import Advice, Green, Membership


@transaction.atomic
def give_advice(
    *, green: Green, by: Membership, on: date, words: str, agrees_to_shorter_gate: bool | None = None
) -> Advice:
    """Advice stands as it was given; a change of mind is new advice."""
    gate = {"agrees_to_shorter_gate": agrees_to_shorter_gate}
    row = Advice.objects.create(green=green, by=by, on=on, words=words, **gate)
    said = {} if agrees_to_shorter_gate is None else trail.as_created(gate)
    deed = f"Gave advice on {green.name}"
    trail.write(club=green.club, by=by, deed=deed, row=row, green=green, changes=said)
    return row
