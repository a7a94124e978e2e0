"""Defects for the contractor."""

from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import defect as actions
from greens.forms.defect import DefectForm, PutRight


@door(Right.MANAGE)
def defect_new(request, here, establishment):
    form = DefectForm(request.POST or None, **limits(here, establishment))
    if request.method == "POST" and form.is_valid():
        actions.note_defect(establishment=establishment, by=here.member, **form.cleaned_data)
        return redirect("rebuild", here.club.slug, establishment.pk)
    context = {"form": form, "green": establishment.green, "establishment": establishment}
    return render(request, "greens/defect/new.html", context)


@door(Right.MANAGE)
def defect(request, here, defect):
    initial = {name: getattr(defect, name) for name in DefectForm.base_fields}
    form = DefectForm(request.POST or None, initial=initial, **limits(here, defect.establishment))
    if request.method == "POST" and form.is_valid():
        actions.change_defect(defect=defect, by=here.member, **form.cleaned_data)
        return redirect("rebuild", here.club.slug, defect.establishment_id)
    return render(request, "greens/defect/change.html", words_of(defect, form))


@door(Right.MANAGE)
def put_right(request, here, defect):
    today = here.club.local_today()
    initial = {"on": defect.put_right_on or today}
    form = PutRight(request.POST or None, initial=initial, today=today, found_on=defect.found_on)
    if request.method == "POST" and form.is_valid():
        actions.put_right(defect=defect, by=here.member, **form.cleaned_data)
        return redirect("rebuild", here.club.slug, defect.establishment_id)
    return render(request, "greens/defect/put_right.html", words_of(defect, form))


def limits(here, establishment) -> dict:
    return {"today": here.club.local_today(), "works_started_on": establishment.works_started_on}


def words_of(defect, form) -> dict:
    establishment = defect.establishment
    return {"form": form, "defect": defect, "green": establishment.green, "establishment": establishment}
