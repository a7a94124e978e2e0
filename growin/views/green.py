"""The greens of a club, and one green's page."""

from django.http import Http404, HttpResponse
from django.shortcuts import render

from greens.access import Right, door
from growin.charts.strip import strip_svg
from growin.evidence.expected import expected
from growin.queries import green as queries


@door(Right.READ)
def greens(request, here):
    rows = queries.glances(here.club, here.club.local_today())
    return render(request, "growin/green/list.html", {"rows": rows})


@door(Right.READ)
def green(request, here, green):
    on = here.club.local_today()
    page = queries.page_of(green, on)
    shown = {"green": green, "on": on, "page": page, "story": queries.story_table(green, on)}
    if page and page.days_down is not None and not page.glance.is_in_play:
        shown["expected"] = expected(page.glance.verdict, page.establishment)
    return render(request, "growin/green/page.html", shown)


@door(Right.READ)
def strip(request, here, green):
    """The growth strip as an image; ``?narrow`` for a phone."""
    story = queries.story(green, here.club.local_today())
    if story is None:
        raise Http404
    return HttpResponse(strip_svg(story, narrow="narrow" in request.GET), content_type="image/svg+xml")
