"""Is it getting better? The years of a green, and their pictures."""

from django.http import Http404, HttpResponse
from django.shortcuts import render

from greens import units
from greens.access import Right, door
from growin.charts.trend import trend_svg
from growin.charts.years import years_svg
from growin.forms.season_report import asked_year
from growin.queries import season_report, watched
from growin.queries import years as queries
from growin.queries.remembered import remembered


@door(Right.READ)
def years(request, here, green):
    on = here.club.local_today()
    page = {"green": green, "known": queries.of_green(green, on), "watched": watched.of_green(green, on)}
    return render(request, "growin/years/page.html", page)


@door(Right.READ)
def picture(request, here, green):
    """Year against year as an image; ``?narrow`` for a phone, ``?year`` at the end of that season."""
    known = known_then(request, here, green)
    return drawn(request, here, (green.pk,), lambda narrow: years_svg(known, narrow))


@door(Right.READ)
def trend(request, here, green, followed):
    """One measure taken in one ``?way`` as an image; ``?narrow`` and ``?year`` as above."""
    known, way = known_then(request, here, green), request.GET.get("way", "")
    one = next((one for one in known.followed if (one.measure, one.way) == (followed, way)), None)
    if one is None:
        raise Http404
    return drawn(request, here, (green.pk, followed, way), lambda narrow: trend_svg(one, narrow))


def known_then(request, here, green) -> queries.Years:
    today, year = here.club.local_today(), asked_year(request.GET)
    report = season_report.of_green(green, today, year) if year else None
    return report.known if report else queries.of_green(green, today)


def drawn(request, here, what: tuple, draw) -> HttpResponse:
    """The image, drawn once for each change of the record."""
    narrow, year = "narrow" in request.GET, asked_year(request.GET)
    named = ("picture of years", *what, narrow, year, units.active(), here.club.local_today())
    return HttpResponse(remembered(here.club, named, lambda: draw(narrow)), content_type="image/svg+xml")
