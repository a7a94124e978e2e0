"""Today: what shall I do?"""

from uuid import uuid4

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions.diary import may_take_back
from greens.actions.people import NotPossible
from greens.queries import diary
from greens.queries import notice as notices
from greens.validators.numbers import whole_number
from greens.views.arrival import from_a_pocket
from greens.views.doer import by_somebody
from growin.actions import together as actions
from growin.agronomy.fields import DetailError
from growin.forms.tap import Tap
from growin.queries import lag, run_out, water
from growin.queries import today as queries


@door(Right.READ)
def today(request, here):
    on = here.club.local_today()
    day = queries.of_club(here.club, on)
    rebuilt = [row.establishment for row in day.greens]
    told = {
        "on": on,
        "day": day,
        "told": notices.of_today(here.member, timezone.now()),
        "thirsty": water.due(here.club, on),
        "kept": just_kept(request, here),
        "groups": [(group, uuid4()) for group in day.together],
        "walk_id": uuid4(),
        "weather_id": uuid4(),
    }
    if here.manages:
        told["over_limit"] = queries.over_limit(here.club, on)
        told["lags"] = lag.lags(here.club, rebuilt, on)
        told["run_out"] = run_out.run_out(here.club, rebuilt, on)
    return render(request, "growin/today/page.html", told)


@door(Right.READ)
def sheet(request, here):
    """The day on paper, for the wall of the shed."""
    on = here.club.local_today()
    return render(request, "growin/today/sheet.html", {"on": on, "day": queries.of_club(here.club, on)})


@door(Right.LOG)
@require_POST
@from_a_pocket
@by_somebody
def done_together(request, here):
    return tapped_for_all(request, here, actions.done_together, lambda form: {"shown": form.rows_shown})


@door(Right.LOG)
@require_POST
@from_a_pocket
@by_somebody
def walk_all(request, here):
    def greens_of(form):
        rows = queries.of_club(here.club, form.said()["on"]).to_walk
        walks = [row.walk for row in rows if row.walk]
        return {"rebuilds": [row.establishment for row in rows], "walks": walks}

    return tapped_for_all(request, here, actions.walk_all, greens_of)


@door(Right.LOG)
@require_POST
@from_a_pocket
@by_somebody
def weather_stopped(request, here):
    def lines_of(form):
        return {"lines": queries.of_club(here.club, form.said()["on"]).stopped}

    return tapped_for_all(request, here, actions.weather_stopped, lines_of)


def tapped_for_all(request, here, deed, about):
    """One tap for many greens: kept once, on the day that the page showed, with a chance to take it back."""
    home, form = reverse("today", args=[here.club.slug]), Tap(here.club, request.POST)
    if not form.is_valid():
        messages.error(request, form.refusal)
        return redirect(home)
    try:
        known = {"club": here.club, "by": here.member, "done_by": here.doer}
        entry = deed(**known, **form.said(), **about(form))
    except (NotPossible, DetailError) as refusal:
        messages.error(request, str(refusal))
        return redirect(home)
    return redirect(f"{home}?kept={entry.pk}")


def just_kept(request, here):
    """What a tap for many greens has just kept, while it can still be taken back."""
    number = whole_number(request.GET.get("kept", ""))
    entry = diary.counted(here.club, number) if number else None
    return entry if entry and may_take_back(entry, here.member) else None
