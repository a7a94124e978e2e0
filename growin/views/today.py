"""Today: what shall I do?"""

from django.shortcuts import render

from greens.access import Right, door
from growin.queries import today as queries


@door(Right.READ)
def today(request, here):
    on = here.club.local_today()
    return render(request, "growin/today/page.html", {"on": on, "day": queries.of_club(here.club, on)})
