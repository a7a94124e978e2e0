"""E-mails, as they wait and as they went."""

from datetime import datetime

from django.db.models import Prefetch, Q, QuerySet

from greens.choices import Sending
from greens.models import Club, Mail, Notice


def due(now: datetime, claimed_before: datetime) -> QuerySet[Mail]:
    """Of every club: waiting and due, or claimed by somebody who never came back; for the sweep alone."""
    lost = Q(state=Sending.SENDING, claimed_at__lt=claimed_before)
    return Mail.objects.filter(Q(state=Sending.WAITING, next_try_at__lte=now) | lost).order_by("next_try_at")


def of_club(club: Club) -> QuerySet[Mail]:
    """Everything that went out or waits, the newest first, with what each carries."""
    carried = Notice.objects.order_by("weight", "pk")
    return club.mails.select_related("person").prefetch_related(Prefetch("notices", carried))


def failing(club: Club) -> QuerySet[Mail]:
    """What was tried and has not left, or was given up."""
    return of_club(club).exclude(error="").exclude(state__in=[Sending.SENT, Sending.NOT_NEEDED])


def whole(pk: int) -> Mail:
    return Mail.objects.select_related("person", "club").get(pk=pk)
