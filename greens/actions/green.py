"""Greens: entered once, renamed when the course is renumbered."""

from django.db import transaction

from greens.actions import trail
from greens.models import Club, Green, Membership
from greens.queries import greens


class NameTaken(Exception):
    """The club already has a green of that name; the message is for people."""


@transaction.atomic
def create_green(
    *,
    club: Club,
    by: Membership,
    name: str,
    position: int = 0,
    distance_to_water_m=None,
    latitude_deg=None,
    longitude_deg=None,
    bearing_deg=None,
) -> Green:
    """A new green of the club. Raises NameTaken."""
    refuse_taken(club, name)
    values = {"name": name, "position": position, "distance_to_water_m": distance_to_water_m}
    values |= {"latitude_deg": latitude_deg, "longitude_deg": longitude_deg, "bearing_deg": bearing_deg}
    green = Green.objects.create(club=club, **values)
    changes = trail.as_created(values)
    trail.write(club=club, by=by, deed=f"Entered the green {name}", row=green, green=green, changes=changes)
    return green


@transaction.atomic
def change_green(*, green: Green, by: Membership, **values) -> None:
    """New name, number or distance to water. Raises NameTaken."""
    refuse_taken(green.club, values.get("name", green.name), besides=green)
    deed = f"Changed the particulars of {green.name}"
    trail.save_changes(row=green, values=values, club=green.club, by=by, deed=deed, green=green)


def refuse_taken(club: Club, name: str, besides: Green | None = None) -> None:
    """Two presses of one button wait for each other here."""
    Club.objects.select_for_update().get(pk=club.pk)
    if greens.named(club, name).exclude(pk=besides.pk if besides else None).exists():
        raise NameTaken(f"{club.name} already has a green called {name}; give this one another name.")
