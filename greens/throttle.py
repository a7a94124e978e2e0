"""Guessing passwords is slowed down by mailbox and by address; nobody is locked out.

After a few failures each further try must wait a little, at most ``LONGEST_WAIT``. A browser in which the
mailbox has signed in before waits for its own failures alone: who guesses elsewhere, however fast, does not
keep the owner out.
"""

import hashlib
import secrets
from datetime import datetime, timedelta
from ipaddress import ip_address, ip_network

from django.conf import settings
from django.core import signing
from django.utils import timezone

from greens.models import Attempt

KNOWN = "known_here"
KNOWN_FOR = timedelta(days=400)
#: What one house is given of the longer addresses (RFC 6177, 2: no less than this).
IPV6_OF_A_HOUSE = 64

REMEMBERED = timedelta(minutes=15)
FREE_TRIES = {"mailbox": 5, "address": 20}
LONGEST_WAIT = timedelta(seconds=30)


def keys(request, email: str) -> dict[str, str]:
    """Hashes of the mailbox and of the network address, so that neither is kept in plain."""
    known = known_as(request, email)
    if known:
        return {"mailbox": hashed("known", f"{email}:{known}")}
    return {"mailbox": hashed("mailbox", email), "address": hashed("address", network_of(request))}


def hashed(kind: str, text: str) -> str:
    return hashlib.sha256(f"{kind}:{text.strip().lower()}".encode(errors="replace")).hexdigest()


def network_of(request) -> str:
    """Where the request comes from; of an IPv6 address the network of the house."""
    said = request.META.get("REMOTE_ADDR", "")
    try:
        address = ip_address(said)
    except ValueError:
        return said
    return str(ip_network((address, IPV6_OF_A_HOUSE), strict=False) if address.version == 6 else address)


def known_as(request, email: str) -> str:
    """The mark of a browser in which this mailbox has signed in before; empty for any other."""
    try:
        mailbox, mark = signing.loads(request.COOKIES.get(KNOWN, ""), salt=KNOWN, max_age=KNOWN_FOR)
    except (signing.BadSignature, ValueError):
        return ""
    return mark if mailbox == hashed("mailbox", email) else ""


def know_from_now_on(response, email: str) -> None:
    """Mark the browser of somebody who has just signed in."""
    mark = signing.dumps([hashed("mailbox", email), secrets.token_hex(8)], salt=KNOWN)
    response.set_cookie(
        KNOWN, mark, max_age=KNOWN_FOR, secure=settings.SESSION_COOKIE_SECURE, httponly=True, samesite="Lax"
    )


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
    """Who has signed in clears the failures of the mailbox."""
    Attempt.objects.filter(key=keys(request, email)["mailbox"]).delete()
