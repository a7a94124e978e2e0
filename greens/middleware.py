"""What stands between every request and its page."""

import logging
import re
import secrets
from time import perf_counter

from django.conf import settings
from django.utils import timezone
from django.utils.encoding import escape_uri_path

from greens.actions import device as devices
from greens.log_line import carrying, told

log = logging.getLogger(__name__)
#: What a proxy may call a request; anything else could be meant for whoever reads the log.
SANE_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{7,63}")


def line_for_each_request(get_response):
    """A request has an id, which every line written meanwhile carries, and at its end a line of its own."""

    def answer(request):
        request.id = id_of(request.headers.get("X-Request-ID", ""))
        began = perf_counter()
        with carrying(request=request.id):
            response = get_response(request)
            note(request, response, round((perf_counter() - began) * 1000, 1))
        response.headers["X-Request-ID"] = request.id
        return response

    return answer


def id_of(said: str) -> str:
    """The id that a proxy gave, if it is a sane one, else one of our own."""
    return said if SANE_ID.fullmatch(said) else secrets.token_hex(6)


def note(request, response, ms: float) -> None:
    """Write the line of a request; it names the member where a door let somebody into a club."""
    method, path, status = request.method, escape_uri_path(request.path), response.status_code
    here = getattr(request, "here", None)
    member = {"member": here.member.pk} if here else {}
    words = told(method=method, path=path, status=status, ms=ms, **member)
    log.info("%s %s: %s in %s ms", method, path, status, ms, extra=words)


def seen_by_the_proxy(get_response):
    """Behind ``settings.PROXIES`` proxies of ours, the visitor's address is what the first of them saw.

    Each of them adds the address of whoever asked it at the end of X-Forwarded-For; what stands before
    that came with the visitor and is not believed.
    """

    def answer(request):
        hops = request.headers.get("X-Forwarded-For", "").split(",")
        if 0 < settings.PROXIES <= len(hops):
            request.META["REMOTE_ADDR"] = hops[-settings.PROXIES].strip() or request.META["REMOTE_ADDR"]
        return get_response(request)

    return answer


def club_time_ends_with_the_request(get_response):
    """The door sets the club's local time; the next request on this thread starts in UTC again."""

    def answer(request):
        try:
            return get_response(request)
        finally:
            timezone.deactivate()

    return answer


#: What a session says of the device: its row, and when that was last written.
DEVICE, SEEN = "device", "device_seen"


def devices_are_seen(get_response):
    """The list of somebody's devices says when each was last used; a session in use lasts."""

    def answer(request):
        response = get_response(request)
        now = timezone.now().timestamp()
        if (
            request.session.accessed
            and now - request.session.get(SEEN, now) >= devices.KEPT_TO.total_seconds()
        ):
            devices.seen(pk=request.session[DEVICE])
            request.session[SEEN] = now
        return response

    return answer
