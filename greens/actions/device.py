"""Signing in leaves a row for the device; ending it ends the session there."""

from datetime import timedelta
from importlib import import_module

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from greens.models import Device, Person
from greens.validators.browser import device_words

#: When a device was last used is kept to the hour, so that looking at a page seldom writes.
KEPT_TO = timedelta(hours=1)


@transaction.atomic
def note(*, person: Person, session_key: str, agent: str) -> Device:
    """Somebody signed in here; rows of sessions that are long over go."""
    now = timezone.now()
    over = now - timedelta(seconds=settings.SESSION_COOKIE_AGE)
    person.devices.filter(used_at__lt=over).delete()
    return Device.objects.create(
        person=person, session_key=session_key, words=device_words(agent), used_at=now
    )


def seen(*, pk: int) -> None:
    """It was used just now."""
    Device.objects.filter(pk=pk).update(used_at=timezone.now())


def move(device: Device, session_key: str) -> None:
    """The same session under another key."""
    Device.objects.filter(pk=device.pk).update(session_key=session_key)


def end(device: Device) -> None:
    """Sign out there: what it asks next is asked to sign in again."""
    store = import_module(settings.SESSION_ENGINE).SessionStore()
    store.delete(device.session_key)
    device.delete()


def end_all(*, person: Person, but: str | None = None) -> int:
    """Sign out everywhere, save in the session ``but``; how many were ended."""
    rows = list(person.devices.exclude(session_key=but or ""))
    for row in rows:
        end(row)
    return len(rows)
