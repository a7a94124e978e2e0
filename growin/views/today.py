"""Today: what shall I do?"""

from django.shortcuts import render

from greens.access import Right, door
from growin.queries import today as queries
from growin.queries import water


@door(Right.READ)
def today(request, here):
    on = here.club.local_today()
    told = {"on": on, "day": queries.of_club(here.club, on), "thirsty": water.due(here.club, on)}
    if here.manages:
        told["over_limit"] = queries.over_limit(here.club, on)
    return render(request, "growin/today/page.html", told)
