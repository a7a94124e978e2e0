"""What somebody may see and settle of themselves, in whichever clubs they are."""

from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.shortcuts import redirect, render
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from greens.actions import device as device_actions
from greens.actions import people as actions
from greens.forms.person import ChangePassword, asked_device
from greens.queries import club as clubs
from greens.queries import device as devices
from greens.queries import second_step
from greens.views.let_in import heard, shown
from greens.views.own import own_page


@own_page
@require_GET
def you(request):
    told = {
        "places": clubs.memberships_of(request.user),
        "devices": devices.of(request.user),
        "this_key": request.session.session_key,
        "step": second_step.of(request.user),
    }
    return render(request, "greens/you/page.html", told)


@sensitive_post_parameters("current", "password")
@own_page
@require_http_methods(["GET", "POST"])
def password(request):
    """Another password: it stays signed in here, and ends everywhere else."""
    form = ChangePassword(request.POST or None, person=request.user)
    if not heard(request, form, form.is_own):
        return shown(request, form, "greens/you/password.html")
    here, new = request.session.session_key, form.cleaned_data["password"]
    actions.change_password(person=request.user, password=new, stays=here)
    keep_signed_in(request)
    messages.success(request, "The new password holds. Every other device was signed out.")
    return redirect("you")


def keep_signed_in(request) -> None:
    """A session goes on under another key; its line in the list goes with it."""
    device = devices.at(request.user, request.session.session_key)
    update_session_auth_hash(request, request.user)
    request.session.save()
    if device:
        device_actions.move(device, request.session.session_key)


@own_page
@require_POST
def end_device(request):
    """One of one's own; any other number does nothing."""
    device = devices.one(request.user, asked_device(request.POST))
    if device and device.session_key != request.session.session_key:
        device_actions.end(device)
        messages.success(request, f"Signed out: {device}.")
    return redirect("you")


@own_page
@require_POST
def end_others(request):
    ended = device_actions.end_all(person=request.user, but=request.session.session_key)
    messages.success(
        request, f"Signed out everywhere else: {ended}." if ended else "You are signed in only here."
    )
    return redirect("you")
