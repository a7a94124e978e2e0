"""What stands between every request and its page."""

from django.utils import timezone


def club_time_ends_with_the_request(get_response):
    """The door sets the club's local time; the next request on this thread starts in UTC again."""

    def answer(request):
        try:
            return get_response(request)
        finally:
            timezone.deactivate()

    return answer
