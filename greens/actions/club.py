"""Founding a club and setting what holds for all of it."""

from django.db import transaction
from django.utils.text import slugify

from greens.actions import trail
from greens.choices import Role
from greens.models import Club, Membership, Normal, Person
from greens.queries import club as clubs

RESERVED = {"new", "sign-in", "static"}


def free_slug(name: str) -> str:
    """A short name for the address that no other club has."""
    base = slugify(name)[:50] or "club"
    tries = [base, *(f"{base}-{number}" for number in range(2, 1000))]
    return next(slug for slug in tries if slug not in RESERVED and not clubs.slug_is_taken(slug))


@transaction.atomic
def found_club(*, name: str, head: Person, latitude_deg, time_zone: str, **more) -> Membership:
    """A new club with its first head greenkeeper."""
    club = Club.objects.create(
        slug=free_slug(name), name=name, latitude_deg=latitude_deg, time_zone=time_zone, **more
    )
    member = Membership.objects.create(club=club, person=head, name=head.name, role=Role.HEAD)
    trail.write(club=club, by=member, deed=f"Founded {name}", row=club)
    return member


@transaction.atomic
def change_club(*, club: Club, by: Membership, **values) -> None:
    trail.save_changes(row=club, values=values, club=club, by=by, deed="Changed the club's particulars")


@transaction.atomic
def set_feeding_rules(*, club: Club, by: Membership, **values) -> None:
    """The club's own words, limits of a year and closed time; what was fed before is not judged anew."""
    trail.save_changes(row=club, values=values, club=club, by=by, deed="Changed the rules for feeding")


@transaction.atomic
def set_normals(*, club: Club, by: Membership, means_c: list, rain_mm: list) -> None:
    """Twelve monthly means, January first, and rain where it is known."""
    before = list(club.normals.values_list("mean_c", flat=True))
    for month, (mean, rain) in enumerate(zip(means_c, rain_mm, strict=True), start=1):
        Normal.objects.update_or_create(club=club, month=month, defaults={"mean_c": mean, "rain_mm": rain})
    changes = {"means_c": [trail.plain([float(mean) for mean in before]), [float(mean) for mean in means_c]]}
    trail.write(club=club, by=by, deed="Set the monthly normals", row=club, changes=changes)
