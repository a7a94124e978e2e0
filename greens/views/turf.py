"""The turf of a rebuild."""

from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import turf as actions
from greens.forms.turf import TurfForm


@door(Right.MANAGE)
def turf(request, here, establishment):
    row = getattr(establishment, "turf", None)
    initial = {name: getattr(row, name, None) for name in TurfForm.base_fields}
    limits = {
        "club": here.club,
        "today": here.club.local_today(),
        "laid_on": establishment.established_on,
    }
    form = TurfForm(request.POST or None, initial=initial, **limits)
    if request.method == "POST" and form.is_valid():
        actions.set_turf(establishment=establishment, by=here.member, **form.cleaned_data)
        return redirect("rebuild", here.club.slug, establishment.pk)
    context = {"form": form, "green": establishment.green, "establishment": establishment}
    return render(request, "greens/turf/sheet.html", context)
