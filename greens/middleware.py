"""What stands between every request and its page."""

from django.utils import timezone

from greens.actions import device as devices


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
