"""The record of changes."""

from django.core.paginator import Paginator
from django.shortcuts import render

from greens.access import Right, door
from greens.queries import trail


@door(Right.READ)
def changes(request, here):
    pages = Paginator(trail.of(here.club), 50)
    return render(request, "greens/trail/list.html", {"page": pages.get_page(request.GET.get("page"))})
