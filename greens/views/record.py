"""The green's record on one page: how it was built, what is out, and what that means."""

from django.shortcuts import render

from greens.access import Right, door
from greens.queries import area, build, files
from greens.queries import record as queries


@door(Right.READ)
def record(request, here, green):
    """The newest rebuild of the green."""
    return page(request, here, green, queries.newest_with_build(green))


@door(Right.READ)
def rebuild(request, here, establishment):
    """One rebuild, also an earlier one."""
    return page(request, here, establishment.green, queries.with_build(here.club, establishment.pk))


def page(request, here, green, establishment):
    context = {
        "green": green,
        "establishment": establishment,
        "areas": area.measured(green),
        "rebuilds": queries.rebuilds(green),
        "files": files.by_kind(green),
        "advice": queries.advice_on(green),
    }
    if establishment:
        context |= build.shown(establishment, here.club.local_today())
    return render(request, "greens/record/page.html", context)
