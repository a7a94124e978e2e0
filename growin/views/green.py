"""The greens of a club, and one green's story."""

from django.shortcuts import render

from greens.access import Right, door
from greens.queries import greens as queries


@door(Right.READ)
def greens(request, here):
    return render(request, "growin/green/list.html", {"greens": queries.of(here.club)})


@door(Right.READ)
def green(request, here, green):
    return render(request, "growin/green/page.html", {"green": green})
