"""Which clubs are to be looked at, and of which greens the record has changed."""

from datetime import datetime, timedelta

from django.db.models import F, Q, QuerySet

from greens.models import Club
from growin.models import Lookout

#: A record that changes is left alone for so long, so that an hour of logging is one look, not sixty.
REST = timedelta(minutes=2)
#: Lines that were being written while the last look read are looked at again.
OVERLAP = timedelta(minutes=5)


def without() -> QuerySet[Club]:
    """Clubs that nobody looks at yet; for the sweep alone."""
    return Club.objects.filter(lookout=None)


def due(now: datetime, claimed_before: datetime) -> QuerySet[Lookout]:
    """Due by the clock, or of a club whose record changed since; for the sweep alone."""
    rested = Q(looked_at=None) | Q(looked_at__lte=now - REST)
    changed = rested & ~Q(mark=F("club__trail_mark"))
    free = Q(claimed_at=None) | Q(claimed_at__lt=claimed_before)
    rows = Lookout.objects.filter(Q(look_at__lte=now) | changed, free)
    return rows.select_related("club").order_by("look_at", "pk")


def changed_greens(lookout: Lookout) -> frozenset[int] | None:
    """Greens of which something was written since the last look; None where it may concern all; one query."""
    if lookout.looked_at is None:
        return None
    lines = lookout.club.trail.filter(at__gte=lookout.looked_at - OVERLAP).order_by()
    greens = set(lines.values_list("green", flat=True).distinct())
    return None if None in greens else frozenset(greens)
