"""Advice on a green, from outside."""

from django.contrib import messages
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import advice as actions
from greens.forms.advice import AdviceForm


@door(Right.ADVISE)
def advice_new(request, here, green):
    form = AdviceForm(request.POST or None, today=here.club.local_today())
    if request.method == "POST" and form.is_valid():
        actions.give_advice(green=green, by=here.member, **form.cleaned_data)
        messages.success(request, "The advice is kept and stands beside the green's verdict.")
        return redirect("record", here.club.slug, green.pk)
    return render(request, "greens/advice/new.html", {"form": form, "green": green})
