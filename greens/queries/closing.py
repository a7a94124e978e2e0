"""Clubs that end."""

from django.db.models import QuerySet

from greens.models import Club, Person


def closing() -> QuerySet[Club]:
    return Club.objects.exclude(closes_on=None).order_by("closes_on", "pk")


def people_of(club: Club) -> QuerySet[Person]:
    """Whoever signs in there, or once did."""
    return Person.objects.filter(memberships__club=club).distinct().order_by("pk")


def mailboxes(club: Club) -> list[str]:
    """Of everybody who belongs to the club now."""
    return list(
        club.memberships.filter(ended_at=None, person__is_active=True)
        .order_by("pk")
        .values_list("person__email", flat=True)
    )
