"""Closing a club, and keeping it after all."""

from django.contrib import messages
from django.shortcuts import redirect
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST

from greens.access import Right, door, while_closing
from greens.actions import closing as actions
from greens.forms.closing import CloseClub
from greens.views.let_in import heard, shown


@sensitive_post_parameters("current")
@door(Right.MANAGE)
def close_club(request, here):
    form = CloseClub(request.POST or None, club=here.club, person=request.user)
    if here.club.closes_on or not heard(request, form, form.is_own):
        return shown(request, form, "greens/club/close.html", grace_days=actions.GRACE.days)
    actions.begin(club=here.club, by=here.member)
    messages.success(request, "The club is being closed. Take the fair copy away before the last day.")
    return redirect("close_club", here.club.slug)


@door(Right.MANAGE)
@while_closing
@require_POST
def keep_club(request, here):
    actions.stop(club=here.club, by=here.member)
    messages.success(request, "The club goes on as it was.")
    return redirect("club", here.club.slug)
