"""The diary: what was done, entry by entry."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import diary as kept
from greens.actions.people import NotPossible
from greens.queries import arrival as arrivals
from greens.views.back import came_from
from growin.actions import diary as actions
from growin.agronomy.works import missing_details
from growin.forms.sought import Sought
from growin.queries import diary as queries

IN_WHOLE = ("entry", queries.one)


@door(Right.READ)
def diary(request, here):
    form = Sought(here.club, request.GET or None)
    page = queries.page_of(here.club, form.asked(), request.GET.get("page"))
    return render(request, "growin/diary/list.html", {"form": form, "page": page})


@door(Right.READ, entry_id=IN_WHOLE)
def entry(request, here, entry):
    shown = {
        "entry": entry,
        "just_kept": "kept" in request.GET,
        "arrival": arrivals.of_row(here.club, entry.client_id),
        "may_correct": here.may_correct(entry) and not entry.taken_back_at,
        "may_take_back": kept.may_take_back(entry, here.member),
        "still_wanted": [field.words for field in missing_details(entry.work, entry.details)],
        "offered": queries.offered_to(entry) if here.may_correct(entry) else [],
    }
    return render(request, "growin/diary/entry.html", shown)


@door(Right.LOG)
@require_POST
def take_back(request, here, entry):
    here.must_correct(entry)
    try:
        kept.take_back(entry=entry, by=here.member)
    except NotPossible as refused:
        messages.error(request, str(refused))
        return redirect("entry", here.club.slug, entry.pk)
    messages.success(request, f"Taken back: {entry}. It no longer counts.")
    return redirect(came_from(request) or reverse("diary", args=[here.club.slug]))


@door(Right.LOG, entry_id=IN_WHOLE)
@require_POST
def answer(request, here, entry):
    here.must_correct(entry)
    ticked = [one for one in queries.offered_to(entry) if one.step.key == request.POST.get("key")]
    for one in ticked:
        actions.answer_step(entry=entry, establishment=one.establishment, key=one.step.key, by=here.member)
        messages.success(request, f"Ticked: {one.step}.")
    return redirect("entry", here.club.slug, entry.pk)
