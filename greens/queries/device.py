"""Where somebody is signed in."""

from datetime import timedelta

from django.conf import settings
from django.contrib.auth.models import AnonymousUser
from django.db.models import QuerySet
from django.utils import timezone

from greens.models import Device, Person


def of(person: Person) -> QuerySet[Device]:
    """Those whose session can still be open, last used first."""
    oldest = timezone.now() - timedelta(seconds=settings.SESSION_COOKIE_AGE)
    return person.devices.filter(used_at__gte=oldest)


def at(person: Person | AnonymousUser, session_key: str | None) -> Device | None:
    """The one that asks."""
    return person.devices.filter(session_key=session_key).first() if person.is_authenticated else None


def one(person: Person, pk: int | None) -> Device | None:
    return person.devices.filter(pk=pk).first()
