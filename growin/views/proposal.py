"""A day proposed for opening: what it would mean, and withdrawing it."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.queries import notice as notices
from growin.actions import proposal as actions
from growin.charts.fan import fan_svg
from growin.evidence.outlook import outlook
from growin.forms.proposal import ProposalSheet, WithdrawSheet
from growin.queries import forecast as forecasts
from growin.queries import proposal as queries
from growin.queries.fan import fan_of
from growin.views.decision import made_from

ONE = ("proposal", queries.one)


@door(Right.DECIDE)
def propose(request, here, establishment):
    today = here.club.local_today()
    form = ProposalSheet(today, request.POST or None)
    if request.method == "POST" and form.is_valid():
        made = made_from(form, actions.propose, establishment=establishment, by=here.member)
        if made:
            messages.success(request, "The day is proposed. What it would mean stands below.")
            return redirect("proposal", here.club.slug, made.pk)
    shown = {"form": form, "establishment": establishment}
    return render(request, "growin/proposal/propose.html", shown)


@door(Right.READ, proposal_id=ONE)
def proposal(request, here, proposal):
    known = outlook(proposal, here.club.local_today())
    fan = known.expected and known.expected.fan(proposal.opening_on)
    shown = {"proposal": proposal, "outlook": known, "fan": fan}
    if known.warned:
        shown["own"] = notices.warning_before(here.member, proposal.establishment.green)
    return render(request, "growin/proposal/page.html", shown)


@door(Right.READ, proposal_id=ONE)
def fan(request, here, proposal):
    """The opening date as a strip of days with the day in mind; ``?narrow`` for a phone.

    While there is no forecast the page of the proposal says so.
    """
    drawn = fan_of(forecasts.newest(proposal.establishment), proposal.opening_on)
    if drawn is None:
        return redirect("proposal", here.club.slug, proposal.pk)
    return HttpResponse(fan_svg(drawn, "narrow" in request.GET), content_type="image/svg+xml")


@door(Right.DECIDE, proposal_id=ONE)
def withdraw(request, here, proposal):
    form = WithdrawSheet(request.POST or None)
    kept = request.method == "POST" and form.is_valid()
    if kept and made_from(form, actions.withdraw, proposal=proposal, by=here.member):
        messages.success(request, "The proposal is withdrawn.")
        return redirect("readiness", here.club.slug, proposal.establishment.green_id)
    return render(request, "growin/proposal/withdraw.html", {"form": form, "proposal": proposal})
