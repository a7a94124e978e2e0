"""A photograph or a voice note for what was kept before: sent by a page, or by a phone from its store."""

from django.contrib import messages
from django.http import JsonResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import file as actions
from greens.forms.file import AttachForm
from greens.views.back import came_from

PAGE, PROGRAM = "text/html", "application/json"


@door(Right.LOG)
@require_POST
def attach(request, here):
    """Kept, or refused in a sentence for each field; as JSON where that is preferred, else as a page."""
    form = AttachForm(request.POST, request.FILES)
    row, errors = None, form.in_words
    if not errors:
        try:
            said = {"of": form.cleaned_data["of"], "client_id": form.cleaned_data["client_id"]}
            row = actions.attach(club=here.club, by=here.member, upload=form.cleaned_data["file"], **said)
        except actions.NotKept as refused:
            errors = {"file": str(refused)}
    if request.get_preferred_type([PAGE, PROGRAM]) == PROGRAM:
        return told(here, row, errors)
    return shown(request, here, row, errors)


def told(here, row, errors: dict[str, str]) -> JsonResponse:
    if errors:
        return JsonResponse({"state": "refused", "errors": errors}, status=422)
    return JsonResponse({"state": "kept", "url": page_of(here, row)})


def shown(request, here, row, errors: dict[str, str]):
    for sentence in errors.values():
        messages.error(request, sentence)
    if row is None:
        return redirect(came_from(request) or reverse("today", args=[here.club.slug]))
    messages.success(request, f"The {row.get_kind_display().lower()} is kept.")
    return redirect(page_of(here, row))


def page_of(here, row) -> str:
    """The page of the entry or set that the file hangs on."""
    if row.entry_id:
        return reverse("entry", args=[here.club.slug, row.entry_id])
    return reverse("reading", args=[here.club.slug, row.reading_set_id])
