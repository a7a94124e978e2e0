"""What was mailed to everybody of a club, and what failed."""

from django.core.paginator import Paginator
from django.shortcuts import render

from greens.access import Right, door
from greens.queries import mail as queries


@door(Right.MANAGE)
def sent(request, here):
    pages = Paginator(queries.of_club(here.club), 50)
    context = {"page": pages.get_page(request.GET.get("page")), "failing": queries.failing(here.club)}
    return render(request, "greens/mail/sent.html", context)
