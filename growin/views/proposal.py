"""A day proposed for opening: what it would mean, and withdrawing it."""

from django.contrib import messages
from django.shortcuts import redirect, render

from greens.access import Right, door
from growin.actions import proposal as actions
from growin.evidence.outlook import outlook
from growin.forms.proposal import ProposalSheet, WithdrawSheet
from growin.queries import proposal as queries
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
    shown = {"proposal": proposal, "outlook": outlook(proposal, here.club.local_today())}
    return render(request, "growin/proposal/page.html", shown)


@door(Right.DECIDE, proposal_id=ONE)
def withdraw(request, here, proposal):
    form = WithdrawSheet(request.POST or None)
    kept = request.method == "POST" and form.is_valid()
    if kept and made_from(form, actions.withdraw, proposal=proposal, by=here.member):
        messages.success(request, "The proposal is withdrawn.")
        return redirect("readiness", here.club.slug, proposal.establishment.green_id)
    return render(request, "growin/proposal/withdraw.html", {"form": form, "proposal": proposal})
