"""Logging work: which kind, then a short form; and the same form to correct an entry."""

from uuid import uuid4

from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.template.response import TemplateResponse
from django.urls import reverse
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import diary as kept_work
from greens.actions.people import NotPossible
from greens.validators.upload import NotKept
from greens.views.arrival import from_a_pocket
from greens.views.doer import by_somebody
from growin.actions import diary as actions
from growin.agronomy.fields import DetailError
from growin.agronomy.works import WORKS
from growin.forms.at_once import AtOnce
from growin.forms.diary import WorkSheet, as_written, fresh
from growin.forms.products import as_typed
from growin.queries import diary as queries
from growin.queries import log as starts

IN_WHOLE = ("entry", queries.one)


@door(Right.LOG)
def choose(request, here):
    start = starts.of_choice(here.club, request.GET.get("green"))
    first = {"greens": start.greens, "client_id": uuid4(), "on": here.club.local_today()}
    form = AtOnce(here.club, initial=first)
    return render(request, "growin/diary/choose.html", {"start": start, "form": form})


@door(Right.LOG)
@require_POST
@from_a_pocket
@by_somebody
def at_once(request, here):
    form = AtOnce(here.club, request.POST)
    if form.is_valid():
        try:
            entry = actions.log_work(by=here.member, **form.said(here.doer))
        except DetailError as refused:
            form.take(refused.errors)
        else:
            return redirect(slip(here, entry))
    start = starts.of_choice(here.club, None)
    return TemplateResponse(request, "growin/diary/choose.html", {"start": start, "form": form})


@door(Right.LOG)
@from_a_pocket
def work(request, here, kind):
    if kind not in WORKS:
        raise Http404
    start = starts.of_work(here.club, WORKS[kind], request.GET)
    initial = fresh(start, here.doer)
    form = WorkSheet(here.club, start.work, *posted(request), initial=initial, offered=start.offered)
    if here.member.is_shared:
        form.ask_who_first()
    entry = keep(form, actions.log_work, club=here.club, kind=kind, by=here.member)
    if entry:
        return redirect(slip(here, entry))
    return TemplateResponse(request, "growin/diary/log.html", {"start": start, "form": form})


@door(Right.LOG, entry_id=IN_WHOLE)
def correct(request, here, entry):
    here.must_correct(entry)
    initial = as_written(entry) | {"products": as_typed(entry)}
    form = WorkSheet(here.club, entry.work, *posted(request), initial=initial, entry=entry)
    corrected = keep(form, kept_work.correct_work, entry=entry, by=here.member)
    if corrected:
        messages.success(request, "The correction is kept; what stood before stays readable below.")
        return redirect("entry", here.club.slug, entry.pk)
    return render(request, "growin/diary/correct.html", {"entry": entry, "form": form})


def posted(request) -> tuple:
    return (request.POST, request.FILES) if request.method == "POST" else ()


def slip(here, entry) -> str:
    """The entry's page, saying first what was kept."""
    return reverse("entry", args=[here.club.slug, entry.pk]) + "?kept"


def keep(form: WorkSheet, action, **known):
    """What the action made of the form; None while nothing was sent or something is wrong."""
    if not form.is_bound or not form.is_valid() or form.is_asking:
        return None
    try:
        return action(**known, **form.said())
    except DetailError as refused:
        form.take(refused.errors)
    except (NotPossible, NotKept) as refused:
        form.add_error("photographs" if isinstance(refused, NotKept) else None, str(refused))
    return None
