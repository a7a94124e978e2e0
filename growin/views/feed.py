"""A member's calendar, behind its secret address."""

from django.http import Http404, HttpResponse, HttpResponseNotModified
from django.utils.cache import get_conditional_response, patch_cache_control
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.debug import sensitive_variables
from django.views.decorators.http import require_safe

from greens import units
from greens.actions import feed as actions
from greens.models import Feed
from greens.queries import feed as queries
from growin.feed import written
from growin.queries.feed import Ahead
from growin.queries.remembered import digest_under


@csrf_exempt
@require_safe
@sensitive_variables("secret")
def feed(request, secret: str):
    """Without signing in, for calendars; whoever has left the club finds nothing here any more."""
    row = queries.of_secret(secret)
    if row is None:
        raise Http404
    actions.note_read(row)
    tag = tag_of(row)
    answer = get_conditional_response(request, etag=tag)
    if not isinstance(answer, HttpResponseNotModified):
        answer = HttpResponse(calendar_of(row), content_type="text/calendar; charset=utf-8")
        answer["Content-Disposition"] = 'inline; filename="greens.ics"'
    answer["ETag"] = tag
    answer["Referrer-Policy"] = "no-referrer"
    patch_cache_control(answer, private=True, no_cache=True)
    return answer


def tag_of(row: Feed) -> str:
    """Another one whenever the club's record, or its day, has changed."""
    member = row.member
    return f'"{digest_under(member.club, ("feed", member.pk, member.club.local_today()))}"'


def calendar_of(row: Feed) -> bytes:
    club = row.member.club
    with units.shown_in(club.units):
        return written(club, Ahead(row.member, club.local_today()))
