"""Is it getting better? The years of a green."""

from django.shortcuts import render

from greens.access import Right, door
from growin.queries import watched
from growin.queries import years as queries


@door(Right.READ)
def years(request, here, green):
    on = here.club.local_today()
    page = {"green": green, "known": queries.of_green(green, on), "watched": watched.of_green(green, on)}
    return render(request, "growin/years/page.html", page)
