"""Dated advice of the adviser."""

from datetime import date

from django.db import transaction

from greens.actions import trail
from greens.models import Advice, Green, Membership


@transaction.atomic
def give_advice(*, green: Green, by: Membership, on: date, words: str) -> Advice:
    """Advice stands as it was given; a change of mind is new advice."""
    row = Advice.objects.create(green=green, by=by, on=on, words=words)
    trail.write(club=green.club, by=by, deed=f"Gave advice on {green.name}", row=row, green=green)
    return row
