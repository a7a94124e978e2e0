"""Is it getting better? The years of a green, and their pictures."""

from django.http import Http404, HttpResponse
from django.shortcuts import render

from greens.access import Right, door
from growin.charts.trend import trend_svg
from growin.charts.years import years_svg
from growin.forms.season_report import asked_year
from growin.queries import watched
from growin.queries import years as queries
from growin.queries.seasons import last_day


@door(Right.READ)
def years(request, here, green):
    """The last years, or those that end with the season that began in ``?year``."""
    today, year = here.club.local_today(), asked_year(request.GET)
    page = {"green": green, "known": known_then(request, here, green), "year": year}
    if year is None:
        page["watched"] = watched.of_green(green, today)
    return render(request, "growin/years/page.html", page)


@door(Right.READ)
def picture(request, here, green):
    """Year against year as an image; ``?narrow`` for a phone, ``?year`` at the end of that season."""
    picture = years_svg(known_then(request, here, green), "narrow" in request.GET)
    return HttpResponse(picture, content_type="image/svg+xml")


@door(Right.READ)
def trend(request, here, green, followed):
    """One measure taken in one ``?way`` as an image; ``?narrow`` and ``?year`` as above."""
    known, way = known_then(request, here, green), request.GET.get("way", "")
    one = next((one for one in known.followed if (one.measure, one.way) == (followed, way)), None)
    if one is None:
        raise Http404
    return HttpResponse(trend_svg(one, "narrow" in request.GET), content_type="image/svg+xml")


def known_then(request, here, green) -> queries.Years:
    until = last_day(here.club, here.club.local_today(), asked_year(request.GET))
    return queries.of_green(green, until)
