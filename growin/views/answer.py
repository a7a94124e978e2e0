"""Answering a step: done as planned, done otherwise, not done, put off."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions.people import NotPossible
from greens.views.arrival import from_a_pocket
from greens.views.back import came_from
from greens.views.doer import by_somebody
from growin.actions import answer as actions
from growin.actions import done
from growin.agronomy.fields import DetailError
from growin.forms.programme import NotDone, PutOff, Tick
from growin.forms.tap import Tap
from growin.queries import programme as queries
from growin.views.programme import rebuild_of
from growin.views.step import KEY, standing_of


@door(Right.LOG, key=KEY)
@require_POST
@from_a_pocket
@by_somebody
def as_planned(request, here, green, key):
    rebuild = rebuild_of(green)
    said = f"Done: {queries.words_of(rebuild, key)}."
    where = {"establishment": rebuild, "key": key, "done_by": here.doer}
    return tapped(request, here, said, done.done_as_planned, **where)


@door(Right.LOG, key=KEY)
@require_POST
@from_a_pocket
def weather(request, here, green, key):
    standing = standing_of(here, green, key)
    where = {"establishment": standing.establishment, "key": key}
    said = f"Not done, weather: {standing.step}. It is asked for again on the next day."
    return tapped(request, here, said, actions.stopped_by_weather, **where)


@door(Right.LOG)
@require_POST
@from_a_pocket
@by_somebody
def walked(request, here, green):
    said = f"{green}: walked, all well."
    where = {"establishment": rebuild_of(green), "done_by": here.doer}
    return tapped(request, here, said, done.walked, **where)


def tapped(request, here, said: str, deed, **where):
    """One tap: the deed is done on the day that was shown, and the page it came from says so."""
    form = Tap(here.club, request.POST)
    try:
        if form.is_valid():
            deed(by=here.member, shown=form.cleaned_data["shown"], **where, **form.said())
            messages.success(request, said)
        else:
            messages.error(request, form.refusal)
    except (NotPossible, DetailError) as refusal:
        messages.error(request, str(refusal))
    return redirect(came_from(request) or reverse("today", args=[here.club.slug]))


@door(Right.LOG, key=KEY)
def tick(request, here, green, key):
    standing = standing_of(here, green, key)
    form = Tick(standing.step, green, here.club.local_today(), request.POST or None)
    return answered(request, here, standing, form, actions.tick)


@door(Right.LOG, key=KEY)
def not_done(request, here, green, key):
    standing = standing_of(here, green, key)
    return answered(request, here, standing, NotDone(request.POST or None), actions.not_done)


@door(Right.LOG, key=KEY)
def put_off(request, here, green, key):
    standing = standing_of(here, green, key)
    form = PutOff(here.club.local_today(), request.POST or None)
    return answered(request, here, standing, form, actions.put_off)


def answered(request, here, standing, form, deed):
    """A form that answers the step, then the day's page."""
    if request.method == "POST" and form.is_valid() and kept(form, deed, here, standing):
        messages.success(request, f"Answered: {standing.step}.")
        return redirect("today", here.club.slug)
    page = {"green": standing.green, "form": form, "step": standing.step, "answer": deed.__name__}
    return render(request, "growin/programme/answer.html", page)


def kept(form, deed, here, standing) -> bool:
    """Whether the answer was kept; a refusal stands in the form."""
    where = {"establishment": standing.establishment, "key": standing.step.key, "by": here.member}
    try:
        deed(**where, **form.values(here.club.local_today()))
    except NotPossible as refusal:
        form.add_error(None, str(refusal))
        return False
    return True
