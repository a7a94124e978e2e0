"""Layers and drains of a rebuild."""

from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import build as actions
from greens.forms.build import DrainsForm, LayersForm, drains_as_initial, layers_as_initial


@door(Right.MANAGE)
def build(request, here, establishment):
    more = {"establishment": establishment, "today": here.club.local_today()}
    form = LayersForm(request.POST or None, initial=layers_as_initial(establishment), **more)
    if request.method == "POST" and form.is_valid():
        actions.set_layers(establishment=establishment, by=here.member, layers=form.layers())
        return redirect("rebuild", here.club.slug, establishment.pk)
    context = {"form": form, "green": establishment.green, "establishment": establishment}
    return render(request, "greens/build/layers.html", context)


@door(Right.MANAGE)
def drains(request, here, establishment):
    form = DrainsForm(request.POST or None, initial=drains_as_initial(establishment))
    if request.method == "POST" and form.is_valid():
        actions.set_drains(establishment=establishment, by=here.member, drains=form.drains())
        return redirect("rebuild", here.club.slug, establishment.pk)
    context = {"form": form, "green": establishment.green, "establishment": establishment}
    return render(request, "greens/build/drains.html", context)
