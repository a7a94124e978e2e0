"""Materials of a club, with their laboratory sheets."""

from django.contrib import messages
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import material as actions
from greens.forms.material import MaterialForm
from greens.queries import record


@door(Right.READ)
def materials(request, here):
    return render(request, "greens/material/list.html", {"materials": record.materials(here.club)})


@door(Right.MANAGE)
def material_new(request, here):
    return sheet(request, here, None)


@door(Right.MANAGE)
def material(request, here, material):
    return sheet(request, here, material)


def sheet(request, here, material):
    initial = {name: getattr(material, name) for name in MaterialForm.base_fields if hasattr(material, name)}
    form = MaterialForm(request.POST or None, initial=initial, today=here.club.local_today())
    if request.method == "POST" and form.is_valid():
        try:
            row = actions.keep_material(
                club=here.club, by=here.member, material=material, **form.cleaned_data
            )
        except actions.NameTaken as refusal:
            form.add_error("name", str(refusal))
        else:
            messages.success(request, f"{row.name} is kept and can be chosen in the layers of a green.")
            return redirect("materials", here.club.slug)
    return render(request, "greens/material/sheet.html", {"form": form, "material": material})
