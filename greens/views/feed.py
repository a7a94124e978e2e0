"""A member's own calendar address: made, shown once, replaced, ended."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.views.decorators.debug import sensitive_variables
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import feed as actions
from greens.actions.letter import address_of
from greens.queries import feed as queries


@door(Right.READ)
@sensitive_variables()
def feed(request, here):
    """The address stands in this one answer; who loads the page again sees only that there is one."""
    here.must_be_one_person()
    address = ""
    if request.method == "POST":
        address = address_of("feed", actions.make_feed(member=here.member))
    context = {"address": address, "tap": webcal(address), "feed": queries.of(here.member)}
    return render(request, "greens/feed/page.html", context)


@door(Right.READ)
@require_POST
def end(request, here):
    if actions.end_feed(member=here.member):
        messages.success(request, "The calendar address is ended; calendars that knew it get nothing more.")
    return redirect("my_feed", here.club.slug)


def webcal(address: str) -> str:
    """The same address under the name by which phones know a calendar to subscribe to."""
    return f"webcal:{address.partition(':')[2]}" if address else ""
