"""Entering a green and changing its particulars."""

from django.contrib import messages
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import green as actions
from greens.forms.green import GreenForm


@door(Right.MANAGE)
def green_new(request, here):
    form = GreenForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            green = actions.create_green(club=here.club, by=here.member, **form.cleaned_data)
        except actions.NameTaken as refusal:
            form.add_error("name", str(refusal))
        else:
            messages.success(request, f"{green.name} is entered; its record follows.")
            return redirect("record", here.club.slug, green.pk)
    return render(request, "greens/green/new.html", {"form": form})


@door(Right.MANAGE)
def green_change(request, here, green):
    initial = {name: getattr(green, name) for name in GreenForm.base_fields}
    form = GreenForm(request.POST or None, initial=initial)
    if request.method == "POST" and form.is_valid():
        try:
            actions.change_green(green=green, by=here.member, **form.cleaned_data)
        except actions.NameTaken as refusal:
            form.add_error("name", str(refusal))
        else:
            return redirect("record", here.club.slug, green.pk)
    return render(request, "greens/green/change.html", {"form": form, "green": green})
