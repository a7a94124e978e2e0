"""What members are told."""

from datetime import datetime

from django.db.models import Q, QuerySet

from greens.choices import Sending
from greens.models import Club, Membership, Notice


def of_member(member: Membership) -> QuerySet[Notice]:
    """Everything a member was told, the newest first."""
    return member.notices.all()


def unseen(member: Membership) -> QuerySet[Notice]:
    return of_member(member).filter(seen_at=None)


def of_club(club: Club) -> QuerySet[Notice]:
    """What went out to everybody of a club, the newest first."""
    return club.notices.select_related("to")


def due(now: datetime, claimed_before: datetime) -> QuerySet[Notice]:
    """Of every club: waiting and due, or claimed by somebody who never came back; for the sweep alone."""
    lost = Q(state=Sending.SENDING, claimed_at__lt=claimed_before)
    return Notice.objects.filter(Q(state=Sending.WAITING, next_try_at__lte=now) | lost).order_by(
        "next_try_at"
    )
