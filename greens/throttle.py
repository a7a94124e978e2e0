"""Guessing passwords is slowed down by mailbox and by address; nobody is locked out.

After a few failures each further try must wait a little, at most ``LONGEST_WAIT``.
"""

import hashlib
from datetime import datetime, timedelta

from django.utils import timezone

from greens.models import Attempt

REMEMBERED = timedelta(minutes=15)
FREE_TRIES = {"mailbox": 5, "address": 20}
LONGEST_WAIT = timedelta(seconds=30)


def keys(request, email: str) -> dict[str, str]:
    """Hashes of the mailbox and of the network address, so that neither is kept in plain."""
    address = request.META.get("REMOTE_ADDR", "")
    return {
        kind: hashlib.sha256(f"{kind}:{text.strip().lower()}".encode()).hexdigest()
        for kind, text in (("mailbox", email), ("address", address))
    }


def wait_seconds(request, email: str) -> int:
    """Whole seconds until this try would be heard; 0 when now."""
    now = timezone.now()
    return max(wait_of(key, FREE_TRIES[kind], now) for kind, key in keys(request, email).items())


def wait_of(key: str, free_tries: int, now: datetime) -> int:
    recent = Attempt.objects.filter(key=key, at__gt=now - REMEMBERED).order_by("-at")
    times = list(recent.values_list("at", flat=True)[: free_tries + 6])
    over = len(times) - free_tries
    if over < 0:
        return 0
    pause = min(timedelta(seconds=2**over), LONGEST_WAIT)
    return max(0, round((times[0] + pause - now).total_seconds()))


def note_failure(request, email: str) -> None:
    now = timezone.now()
    Attempt.objects.filter(at__lt=now - REMEMBERED).delete()
    Attempt.objects.bulk_create(Attempt(key=key, at=now) for key in keys(request, email).values())


def forget(request, email: str) -> None:
    """A right password clears its mailbox."""
    Attempt.objects.filter(key=keys(request, email)["mailbox"]).delete()
