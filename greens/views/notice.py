"""What a member was told."""

from datetime import timedelta

from django.contrib import messages
from django.core.paginator import Paginator
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import notice as actions
from greens.forms.notice import ASIDE, asked_days, asked_number
from greens.queries import notice as queries
from greens.views.back import came_from
from growin.agronomy.plain_words import day


@door(Right.READ)
def told(request, here):
    now = timezone.now()
    pages = Paginator(queries.over(here.member, now), 30)
    context = {
        "standing": queries.standing(here.member, now),
        "page": pages.get_page(request.GET.get("page")),
        "aside": ASIDE,
        "now": now,
    }
    return render(request, "greens/notice/list.html", context)


@door(Right.READ)
@require_POST
def notice_seen(request, here):
    """Only a notice of the member's own can be seen by them; any other number does nothing."""
    actions.see(member=here.member, pk=asked_number(request.POST))
    return redirect(came_from(request) or reverse("notices", args=[here.club.slug]))


@door(Right.READ)
@require_POST
def all_seen(request, here):
    actions.see_all(member=here.member)
    return redirect("notices", here.club.slug)


@door(Right.READ)
@require_POST
def put_aside(request, here):
    until = here.club.local_today() + timedelta(days=asked_days(request.POST))
    if actions.put_aside(member=here.member, pk=asked_number(request.POST), until=until):
        messages.success(request, f"Put aside; you are told again on {day(until)}.")
    return redirect(came_from(request) or reverse("notices", args=[here.club.slug]))
