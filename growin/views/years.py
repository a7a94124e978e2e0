"""Is it getting better? The years of a green."""

from django.shortcuts import render

from greens.access import Right, door
from growin.queries import years as queries


@door(Right.READ)
def years(request, here, green):
    known = queries.of_green(green, here.club.local_today())
    return render(request, "growin/years/page.html", {"green": green, "known": known})
