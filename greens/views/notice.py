"""What a member was told, and what went out."""

from django.core.paginator import Paginator
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import notice as actions
from greens.queries import notice as queries

LONGEST_NUMBER = 19  # the longest that a database counts to has 19 digits


@door(Right.READ)
def told(request, here):
    pages = Paginator(queries.of_member(here.member), 30)
    return render(request, "greens/notice/list.html", {"page": pages.get_page(request.GET.get("page"))})


@door(Right.READ)
@require_POST
def notice_seen(request, here):
    """Only a notice of the member's own can be seen by them; any other number does nothing."""
    number = request.POST.get("notice", "")
    actions.see(
        member=here.member, pk=int(number) if number.isdecimal() and len(number) < LONGEST_NUMBER else None
    )
    return redirect("today" if request.POST.get("from") == "today" else "notices", here.club.slug)


@door(Right.MANAGE)
def sent(request, here):
    """What went out and what failed."""
    pages = Paginator(queries.of_club(here.club), 50)
    return render(request, "greens/notice/sent.html", {"page": pages.get_page(request.GET.get("page"))})
