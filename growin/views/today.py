"""Today: what shall I do?"""

from django.shortcuts import render
from django.utils import timezone

from greens.access import Right, door
from greens.queries import notice as notices
from growin.queries import lag, run_out, water
from growin.queries import today as queries


@door(Right.READ)
def today(request, here):
    on = here.club.local_today()
    day = queries.of_club(here.club, on)
    rebuilt = [row.establishment for row in day.greens]
    told = {
        "on": on,
        "day": day,
        "told": notices.of_today(here.member, timezone.now()),
        "thirsty": water.due(here.club, rebuilt, on),
    }
    if here.manages:
        told["over_limit"] = queries.over_limit(here.club, on)
        told["lags"] = lag.lags(here.club, rebuilt, on)
        told["run_out"] = run_out.run_out(here.club, rebuilt, on)
    return render(request, "growin/today/page.html", told)
