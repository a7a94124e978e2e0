"""The rebuild of a green."""

from django.contrib import messages
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import establishment as actions
from greens.forms.establishment import EstablishmentForm
from greens.queries import greens, record


@door(Right.MANAGE)
def rebuild_new(request, here, green):
    before = greens.current_establishment(green)
    form = EstablishmentForm(request.POST or None, today=here.club.local_today(), before=before, after=None)
    if request.method == "POST" and form.is_valid():
        row = actions.start_establishment(green=green, by=here.member, **form.cleaned_data)
        messages.success(request, "The rebuild is entered; its layers, drains and grass follow.")
        return redirect("rebuild", here.club.slug, row.pk)
    return render(request, "greens/establishment/new.html", {"form": form, "green": green, "before": before})


@door(Right.MANAGE)
def rebuild_change(request, here, establishment):
    before, after = record.neighbours(establishment)
    initial = {name: getattr(establishment, name) for name in EstablishmentForm.base_fields}
    grown_on = record.first_on_turf(establishment)
    limits = {"today": here.club.local_today(), "before": before, "after": after, "grown_on": grown_on}
    form = EstablishmentForm(request.POST or None, initial=initial, **limits)
    if request.method == "POST" and form.is_valid():
        actions.change_establishment(establishment=establishment, by=here.member, **form.cleaned_data)
        return redirect("rebuild", here.club.slug, establishment.pk)
    context = {"form": form, "green": establishment.green, "establishment": establishment}
    return render(request, "greens/establishment/change.html", context)
