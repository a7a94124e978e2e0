"""May it open? One page for the committee."""

from django.shortcuts import render

from greens.access import Right, door
from growin.evidence.readiness import readiness_of
from growin.forms.readiness import AsOf


@door(Right.READ)
def readiness(request, here, green):
    form = AsOf(here.club.local_today(), request.GET or None)
    known = readiness_of(here.club, green, form.day)
    shown = {"green": green, "form": form, "known": known, "today": form.today}
    return render(request, "growin/readiness/page.html", shown)
