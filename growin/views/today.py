"""Today: what shall I do?"""

from django.shortcuts import render

from greens.access import Right, door


@door(Right.READ)
def today(request, here):
    return render(request, "growin/today/page.html", {"day": here.club.local_today()})
