"""Who belongs to a club."""

from django.db.models import QuerySet
from django.utils import timezone

from greens.choices import Role
from greens.models import Club, Membership, Person


def current(club: Club) -> QuerySet[Membership]:
    """Everybody who belongs to the club now, by role, then by name."""
    return club.memberships.filter(ended_at=None).select_related("person").order_by("role", "name")


def workers(club: Club) -> QuerySet[Membership]:
    """Those who can have done the day's work; a device that several use has done none."""
    return current(club).filter(role__in=[Role.HEAD, Role.STAFF], is_shared=False)


def other_heads(member: Membership) -> QuerySet[Membership]:
    """Head greenkeepers of the same club who can sign in, besides this one."""
    return current(member.club).filter(role=Role.HEAD, person__isnull=False).exclude(pk=member.pk)


def is_shared_device(person: Person) -> bool:
    """Whether several people sign in as this one, in any club."""
    return person.memberships.filter(ended_at=None, is_shared=True).exists()


def operators() -> QuerySet[Person]:
    """Those who run the site."""
    return Person.objects.filter(is_operator=True, is_active=True).order_by("pk")


def by_email(email: str) -> Person | None:
    return Person.objects.filter(email=email.strip().lower(), is_active=True).first()


def by_pk(pk: int) -> Person | None:
    return Person.objects.filter(pk=pk, is_active=True).first()


def invited(club: Club, email: str) -> QuerySet[Membership]:
    """Those whose invitation to that address can still be taken up."""
    return open_invitations(club).filter(
        links__email__iexact=email.strip(), links__used_at=None, links__expires_at__gt=timezone.now()
    )


def open_invitations(club: Club):
    """Invitations that can still be taken up, newest first."""
    return Membership.objects.filter(
        club=club, person=None, ended_at=None, links__used_at=None, links__isnull=False
    ).distinct()
