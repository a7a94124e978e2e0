"""The record of changes."""

from django.shortcuts import render

from greens.access import Right, door
from greens.queries import trail
from greens.validators.numbers import whole_number


@door(Right.READ)
def changes(request, here):
    """The newest lines, or those before the line ``?before``."""
    before = whole_number(request.GET.get("before", ""))
    lines, older = trail.lines_before(here.club, before)
    return render(request, "greens/trail/list.html", {"lines": lines, "older": older, "before": before})
