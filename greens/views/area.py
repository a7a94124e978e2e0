"""The area of a green, in three ways."""

from django.contrib import messages
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import area as actions
from greens.choices import AreaMethod
from greens.forms.area import FORMS
from greens.queries import area as queries
from greens.queries import recompute


@door(Right.MANAGE)
def area(request, here, green):
    method = queries.method_named(request.GET.get("how"))
    form = FORMS[method](request.POST or None, today=here.club.local_today())
    if request.method == "POST" and form.is_valid():
        row = actions.measure_area(green=green, by=here.member, method=method, **form.cleaned_data)
        messages.success(request, f"{row} is kept. Entries already in the diary keep the area they had.")
        asks = recompute.on_other_areas(green).exists()
        return redirect("recompute_area" if asks else "record", here.club.slug, green.pk)
    rows = queries.measured(green)
    context = {"form": form, "green": green, "method": method, "methods": AreaMethod.choices, "rows": rows}
    return render(request, "greens/area/page.html", context)
