"""Asking whether past entries are worked out again on a new label or area."""

from django.contrib import messages
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import recompute as actions
from greens.forms.recompute import Recompute
from greens.queries import recompute as queries


@door(Right.MANAGE)
def label(request, here, product):
    form = Recompute(request.POST or None, entries=queries.on_older_labels(product))
    if request.method == "POST" and form.is_valid():
        count = actions.with_newest_label(
            product=product, by=here.member, entries=form.cleaned_data["entries"]
        )
        messages.success(request, f"Worked out again: {count}. The old figures stay readable in each entry.")
        return redirect("product", here.club.slug, product.pk)
    return render(request, "greens/store/recompute.html", {"form": form, "product": product})


@door(Right.MANAGE)
def area(request, here, green):
    form = Recompute(request.POST or None, entries=queries.on_other_areas(green))
    if request.method == "POST" and form.is_valid():
        count = actions.with_area(green=green, by=here.member, entries=form.cleaned_data["entries"])
        messages.success(request, f"Worked out again: {count}. The old figures stay readable in each entry.")
        return redirect("green", here.club.slug, green.pk)
    return render(request, "greens/store/recompute.html", {"form": form, "green": green})
