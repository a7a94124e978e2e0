"""A cast of our own invention: people of two clubs, and greens that a leak test could leak."""

from dataclasses import dataclass, field
from datetime import date

from greens.actions.club import found_club
from greens.choices import Role
from greens.models import Club, Establishment, Green, Membership, Normal, Person

PASSWORD = "gorse-and-heather"
NORMALS_C = (4.0, 4.3, 6.2, 8.5, 11.5, 14.4, 16.5, 16.3, 13.9, 10.4, 6.8, 4.4)


@dataclass
class Cast:
    """One club with somebody in every role, one green, and an outsider from another club with theirs."""

    club: Club
    head: Membership
    staff: Membership
    committee: Membership
    adviser: Membership
    by_name: Membership
    outsider: Membership
    green: Green
    establishment: Establishment
    other_green: Green
    other_establishment: Establishment
    today: date = field(default_factory=lambda: date(2026, 4, 16))

    def __getitem__(self, role: str) -> Membership:
        return getattr(self, role)


def person(name: str) -> Person:
    email = f"{name.lower().replace(' ', '.')}@example.org"
    return Person.objects.create(email=email, name=name, password="!")


def club_with_head(name: str, head: str, **more) -> Membership:
    """A club in the north of England with its head greenkeeper and normals."""
    values = {"latitude_deg": 54, "time_zone": "Europe/London"} | more
    member = found_club(name=name, head=person(head), **values)
    Normal.objects.bulk_create(
        Normal(club=member.club, month=month, mean_c=mean, rain_mm=70)
        for month, mean in enumerate(NORMALS_C, start=1)
    )
    return member


def joined(club: Club, name: str, role: Role) -> Membership:
    return Membership.objects.create(club=club, person=person(name), name=name, role=role)


def laid_green(
    club: Club,
    name: str = "Seventh",
    *,
    kind: str = "turf_supplied",
    species: str = "fescue/bent",
    works_started_on: date = date(2025, 9, 8),
    established_on: date | None = date(2025, 10, 20),
    area_m2: float = 450,
) -> Establishment:
    """A green of the club with its rebuild, as turf of last autumn unless told otherwise."""
    green = Green.objects.create(
        club=club, name=name, position=club.greens.count() + 1, area_dm2=round(area_m2 * 100)
    )
    return Establishment.objects.create(
        green=green,
        number=1,
        kind=kind,
        species=species,
        works_started_on=works_started_on,
        established_on=established_on,
    )


def whole_cast() -> Cast:
    head = club_with_head("Marram Links", "Isla Rowan")
    outsider = club_with_head("Fernhollow Park", "Otto Vane")
    ours, theirs = laid_green(head.club), laid_green(outsider.club, "Third")
    return Cast(
        club=head.club,
        head=head,
        staff=joined(head.club, "Callum Reed", Role.STAFF),
        committee=joined(head.club, "Maeve Thorn", Role.COMMITTEE),
        adviser=joined(head.club, "Bram Hazel", Role.ADVISER),
        by_name=Membership.objects.create(club=head.club, name="Young Tam", role=Role.STAFF),
        outsider=outsider,
        green=ours.green,
        establishment=ours,
        other_green=theirs.green,
        other_establishment=theirs,
    )
