"""Advice on a green, from outside."""

from django.contrib import messages
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import advice as actions
from greens.forms.advice import AdviceForm
from greens.queries.gate import shorter_gate


@door(Right.ADVISE)
def advice_new(request, here, green):
    today = here.club.local_today()
    form = AdviceForm(request.POST or None, today=today, gate=shorter_gate(green, today))
    if request.method == "POST" and form.is_valid():
        actions.give_advice(green=green, by=here.member, **form.values())
        messages.success(request, "The advice is kept and stands beside the green's verdict.")
        return redirect("record", here.club.slug, green.pk)
    return render(request, "greens/advice/new.html", {"form": form, "green": green})
