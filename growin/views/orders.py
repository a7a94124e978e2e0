"""What to order for the next weeks of all programmes."""

from django.shortcuts import render

from greens.access import Right, door
from growin.queries import orders as queries

WEEKS = (2, 4, 8, 12, 26)
USUAL = 4


@door(Right.READ)
def orders(request, here):
    asked = request.GET.get("weeks", "")
    weeks = next((one for one in WEEKS if str(one) == asked), USUAL)
    found = queries.orders(here.club, here.club.local_today(), weeks)
    return render(request, "growin/orders/page.html", {"orders": found, "weeks": weeks, "offered": WEEKS})
