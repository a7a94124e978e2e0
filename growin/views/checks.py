"""How the sums are checked."""

from functools import cache

from django.shortcuts import render
from django.template.loader import render_to_string
from django.utils.safestring import SafeString

from greens.access import Right, door
from growin.queries import checks as queries


@door(Right.READ)
def checks(request, here):
    shown = {"checks": queries.all_checks(), "examples": examples()}
    return render(request, "growin/checks/page.html", shown)


@cache
def examples() -> SafeString:
    """The same for every club, and as long as the code is the same: drawn once in a process."""
    return render_to_string("growin/checks/_examples.html", {"checks": queries.all_checks()})
