"""When may it be ready? The forecast of a rebuild, and its picture."""

from django.http import Http404, HttpResponse
from django.shortcuts import render

from greens.access import Right, door
from growin.charts.fan import fan_svg
from growin.evidence import verdict_of
from growin.evidence.expected import expected
from growin.queries import forecast as queries
from growin.queries import proposal as proposals
from growin.queries.fan import fan_of


@door(Right.READ)
def forecast(request, here, establishment):
    today = here.club.local_today()
    known = expected(verdict_of(establishment, today), establishment)
    standing = proposals.open_of(establishment, today)
    shown = {"establishment": establishment, "known": known, "moves": queries.moves(establishment)}
    shown["fan"] = known and known.fan(standing.opening_on if standing else None)
    return render(request, "growin/forecast/page.html", shown | {"proposal": standing})


@door(Right.READ)
def forecast_picture(request, here, establishment):
    """The opening day as a strip of days; ``?narrow`` for a phone."""
    standing = proposals.open_of(establishment, here.club.local_today())
    drawn = fan_of(queries.newest(establishment), standing.opening_on if standing else None)
    if drawn is None:
        raise Http404
    return HttpResponse(fan_svg(drawn, "narrow" in request.GET), content_type="image/svg+xml")
