"""Calendar addresses: made, replaced, ended; the secret is returned once and stands nowhere else."""

import secrets
from datetime import timedelta

from django.db import transaction
from django.utils import timezone

from greens.actions import trail
from greens.models import Feed, Membership
from greens.models.link import hashed

#: A calendar asks every few hours; when it last did is kept to the hour, so that asking seldom writes.
KEPT_TO = timedelta(hours=1)


@transaction.atomic
def make_feed(*, member: Membership) -> str:
    """A new secret; an address that the member had before opens nothing any more."""
    secret = secrets.token_urlsafe(32)
    values = {"secret_hash": hashed(secret), "made_at": timezone.now(), "read_at": None}
    row, is_first = Feed.objects.update_or_create(member=member, defaults=values)
    deed = "made a calendar address" if is_first else "replaced their calendar address"
    trail.write(club=member.club, by=member, deed=f"{member.name} {deed}", row=row)
    return secret


@transaction.atomic
def end_feed(*, member: Membership) -> bool:
    """The address opens nothing any more; false where there was none."""
    row = Feed.objects.filter(member=member).first()
    if row is None:
        return False
    trail.write(club=member.club, by=member, deed=f"{member.name} ended their calendar address", row=row)
    row.delete()
    return True


def note_read(feed: Feed) -> None:
    """A calendar has fetched it."""
    now = timezone.now()
    if feed.read_at is None or feed.read_at < now - KEPT_TO:
        Feed.objects.filter(pk=feed.pk).update(read_at=now)
