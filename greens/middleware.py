"""What stands between every request and its page."""

from django.conf import settings
from django.utils import timezone


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
