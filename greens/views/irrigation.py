"""The watering system of a rebuild."""

from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import irrigation as actions
from greens.forms.irrigation import IrrigationForm


@door(Right.MANAGE)
def irrigation(request, here, establishment):
    row = getattr(establishment, "irrigation", None)
    initial = {name: getattr(row, name, None) for name in IrrigationForm.base_fields}
    form = IrrigationForm(request.POST or None, initial=initial, today=here.club.local_today())
    if request.method == "POST" and form.is_valid():
        actions.set_irrigation(establishment=establishment, by=here.member, **form.cleaned_data)
        return redirect("rebuild", here.club.slug, establishment.pk)
    context = {"form": form, "green": establishment.green, "establishment": establishment}
    return render(request, "greens/irrigation/sheet.html", context)
