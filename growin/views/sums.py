"""Everyday sums: a list of them, and each with its answer on top."""

from datetime import timedelta

from django.shortcuts import render

from greens.access import Right, door
from growin.forms.sums import SUMS, sum_named
from growin.queries import water
from growin.queries.sums import place_of

DAYS_SHOWN = 14


@door(Right.READ)
def sums(request, here):
    return render(request, "growin/sums/list.html", {"sums": SUMS})


@door(Right.READ, sum_key=("chosen", sum_named))
def one(request, here, chosen):
    today = here.club.local_today()
    form = chosen.form(request.GET, place=place_of(here.club, today), chosen=request.GET.getlist("greens"))
    shown = {"chosen": chosen, "answer": form.answer(), "form": form}
    return render(request, "growin/sums/page.html", shown)


@door(Right.READ)
def water_needs(request, here):
    today = here.club.local_today()
    shown = {
        "needs": water.needs(here.club, today),
        "days": water.asked_by_day(here.club, today - timedelta(days=DAYS_SHOWN - 1), today),
    }
    return render(request, "growin/water/page.html", shown)
