"""Decisions on play: those so far, a new one, closing at once."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.shortcuts import redirect, render

from greens.access import Right, door
from growin.actions import decision as actions
from growin.agronomy.fields import DetailError
from growin.evidence import judged
from growin.evidence.sealed import forecast_then, is_untouched
from growin.evidence.since import since_meeting
from growin.forms.decision import CloseSheet, DecisionSheet
from growin.queries import decision as queries
from growin.queries import proposal as proposals

SHOWN = 8
ONE = ("decision", queries.one)


@door(Right.READ)
def decisions(request, here, establishment):
    today = here.club.local_today()
    shown = {
        "establishment": establishment,
        "play": queries.play_state(establishment, today),
        "decisions": queries.of(establishment)[:SHOWN],
        "proposals": proposals.of(establishment),
        "proposal": proposals.open_of(establishment, today),
        "since": since_meeting(establishment, today),
    }
    return render(request, "growin/decision/list.html", shown)


@door(Right.READ)
def all_decisions(request, here):
    page = Paginator(queries.all_of(here.club), 30).get_page(request.GET.get("page"))
    return render(request, "growin/decision/all.html", {"page": page})


@door(Right.READ, decision_id=ONE)
def decision(request, here, decision):
    shown = {"decision": decision, "is_untouched": is_untouched(decision), "told": forecast_then(decision)}
    return render(request, "growin/decision/page.html", shown)


@door(Right.DECIDE)
def decide(request, here, establishment):
    today = here.club.local_today()
    proposal = proposals.open_of(establishment, today)
    form = DecisionSheet(today, request.POST or None, proposal=proposal)
    if request.method == "POST" and form.is_valid():
        made = made_from(form, actions.decide, establishment=establishment, by=here.member)
        if made:
            messages.success(request, f"Kept: {made}.")
            return redirect("decision", here.club.slug, made.pk)
    shown = {
        "form": form,
        "establishment": establishment,
        "proposal": proposal,
        "verdict": judged(establishment, today).verdict,
        "play": queries.play_state(establishment, today),
    }
    return render(request, "growin/decision/decide.html", shown)


@door(Right.CLOSE)
def close(request, here, establishment):
    form = CloseSheet(request.POST or None)
    if request.method == "POST" and form.is_valid():
        made = made_from(form, actions.close_now, establishment=establishment, by=here.member)
        if made:
            messages.success(request, f"{establishment.green.name} is closed from today.")
            return redirect("readiness", here.club.slug, establishment.green_id)
    return render(request, "growin/decision/close.html", {"form": form, "establishment": establishment})


def made_from(form, action, **known):
    """The decision kept; None with the sentences beside their fields when it cannot be."""
    try:
        return action(**known, **form.cleaned_data)
    except DetailError as refused:
        form.take(refused.errors)
        return None
