"""How the greens stand today: one tap a green."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.choices import DayStateKind
from growin.actions import day_state as actions
from growin.agronomy.fields import DetailError
from growin.evidence.states import standings


@door(Right.READ)
def day_states(request, here):
    today = here.club.local_today()
    shown = {"today": today, "standings": standings(here.club, today), "kinds": DayStateKind.choices}
    return render(request, "growin/day_state/list.html", shown)


@door(Right.LOG)
@require_POST
def set_day_state(request, here, green):
    try:
        today, state = here.club.local_today(), request.POST.get("state", "")
        row = actions.state_of_the_day(green=green, by=here.member, on=today, state=state)
        messages.success(request, f"{green.name}: {row.get_state_display().lower()} today.")
    except DetailError as refused:
        messages.error(request, str(refused))
    return redirect("day_states", here.club.slug)
