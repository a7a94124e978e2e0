"""Who belongs to the club."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import people as actions
from greens.forms.people import ByName, ChangeRole, Invite
from greens.queries import people as queries


@door(Right.READ)
def people(request, here):
    here.must_be_one_person()
    return render(request, "greens/people/list.html", {"members": queries.current(here.club)})


@door(Right.MANAGE)
def invite(request, here):
    form = Invite(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            actions.invite(club=here.club, by=here.member, **form.cleaned_data)
        except actions.NotPossible as refusal:
            form.add_error("email", str(refusal))
        else:
            messages.success(request, f"The invitation to {form.cleaned_data['email']} is on its way.")
            return redirect("people", here.club.slug)
    return render(request, "greens/people/invite.html", {"form": form})


@door(Right.MANAGE)
def add_by_name(request, here):
    form = ByName(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            member = actions.add_by_name(club=here.club, by=here.member, **form.cleaned_data)
        except actions.NotPossible as refusal:
            form.add_error("name", str(refusal))
        else:
            messages.success(request, f"{member.name} can now be named as the doer of work.")
            return redirect("people", here.club.slug)
    return render(request, "greens/people/by_name.html", {"form": form})


@door(Right.MANAGE)
def change_role(request, here, membership):
    form = ChangeRole(request.POST or None, initial={"role": membership.role})
    if request.method == "POST" and form.is_valid():
        try:
            actions.change_role(member=membership, by=here.member, **form.cleaned_data)
        except actions.NotPossible as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect("people", here.club.slug)
    return render(request, "greens/people/role.html", {"form": form, "membership": membership})


@door(Right.MANAGE)
@require_POST
def share_device(request, here, membership):
    try:
        actions.share_device(member=membership, by=here.member, is_shared="shared" in request.POST)
    except actions.NotPossible as refusal:
        messages.error(request, str(refusal))
    return redirect("people", here.club.slug)


@door(Right.MANAGE)
@require_POST
def end_membership(request, here, membership):
    try:
        actions.end_membership(member=membership, by=here.member)
        messages.success(request, f"{membership.name} no longer belongs to the club; the work stays.")
    except actions.NotPossible as refusal:
        messages.error(request, str(refusal))
    return redirect("people", here.club.slug)
