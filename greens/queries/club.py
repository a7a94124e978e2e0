"""Clubs a person may enter."""

from greens.models import Club, Membership


def memberships_of(person):
    """Current memberships of a person, with their clubs, by the club's name."""
    return (
        Membership.objects.filter(person=person, ended_at=None).select_related("club").order_by("club__name")
    )


def membership(person, club_slug: str) -> Membership | None:
    """The person's place in this club now, or none."""
    return memberships_of(person).filter(club__slug=club_slug).first()


def slug_is_taken(slug: str) -> bool:
    return Club.objects.filter(slug=slug).exists()
