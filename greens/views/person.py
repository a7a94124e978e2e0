"""Signing in and out, invitations, new passwords."""

from django.contrib import messages
from django.contrib.auth import authenticate, logout
from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from greens.access import Right
from greens.actions import link as links
from greens.actions import people
from greens.actions.device import end as end_device
from greens.choices import LinkPurpose
from greens.forms.person import AskReset, NewPassword, SignIn, TakeUp
from greens.models import Membership
from greens.queries import club as clubs
from greens.queries import device as devices
from greens.queries.people import by_email
from greens.views import second_step
from greens.views.back import of_this_site
from greens.views.let_in import heard, let_in, shown


def safe_next(request) -> str:
    """Where the visitor was going, if that is on this site."""
    return of_this_site(request.POST.get("next") or request.GET.get("next") or "")


@sensitive_post_parameters("password")
@never_cache
@require_http_methods(["GET", "POST"])
def sign_in(request):
    form, target = SignIn(request.POST or None), safe_next(request)
    person = heard(request, form, lambda: authenticate(request, **form.credentials()))
    if person is None:
        return shown(request, form, "greens/person/sign_in.html", next=target)
    return second_step.ask(request, person, target) or let_in(request, person, redirect(target or "front"))


@require_POST
def sign_out(request):
    device = devices.at(request.user, request.session.session_key)
    if device:
        end_device(device)
    logout(request)
    return redirect("sign_in")


@login_required
def front(request):
    """Straight into the club for those who have one; a choice for those who have several."""
    clubs_of = [(member, first_page(member)) for member in clubs.memberships_of(request.user)]
    if len(clubs_of) == 1:
        return redirect(clubs_of[0][1])
    return render(request, "greens/person/front.html", {"clubs": clubs_of})


def first_page(member: Membership) -> str:
    """Where somebody starts: greenstaff with the day's work, who reads and decides with the greens."""
    return reverse("today" if member.role in Right.LOG.value else "greens", args=[member.club.slug])


def opened(secret: str, purpose: LinkPurpose):
    link = links.open_link(secret, purpose)
    if link is None:
        raise Http404
    return link


@sensitive_post_parameters("password")
@never_cache
@require_http_methods(["GET", "POST"])
def take_up(request, secret: str):
    """Somebody new sets name and password; somebody known signs in and joins."""
    link = opened(secret, LinkPurpose.INVITATION)
    known = by_email(link.email)
    if known:
        return join_known(request, link, known)
    form = TakeUp(request.POST or None, initial={"name": link.membership.name})
    if request.method == "POST" and form.is_valid():
        return joined(request, people.take_up(link=link, **form.cleaned_data), link.membership.club)
    return render(request, "greens/person/take_up.html", {"form": form, "link": link})


def join_known(request, link, known):
    if request.user != known:
        messages.info(request, f"Sign in as {known.email} to join {link.membership.club.name}.")
        return redirect(f"/sign-in/?next={request.path}")
    if request.method == "POST":
        return joined(request, people.take_up(link=link, name="", password=""), link.membership.club)
    return render(request, "greens/person/take_up.html", {"form": None, "link": link})


def joined(request, person, club):
    if person is None:
        raise Http404
    answer = redirect(first_page(clubs.membership(person, club.slug)))
    if request.user != person:
        let_in(request, person, answer)
    messages.success(request, f"You have joined {club.name}.")
    return answer


@never_cache
@require_http_methods(["GET", "POST"])
def ask_reset(request):
    form = AskReset(request.POST or None)
    if request.method == "POST" and form.is_valid():
        people.offer_reset(**form.cleaned_data)
        return render(request, "greens/person/reset_sent.html", form.cleaned_data)
    return render(request, "greens/person/ask_reset.html", {"form": form})


@sensitive_post_parameters("password")
@never_cache
@require_http_methods(["GET", "POST"])
def set_password(request, secret: str):
    link = opened(secret, LinkPurpose.RESET)
    form = NewPassword(request.POST or None, person=link.person)
    if request.method == "POST" and form.is_valid():
        if not people.set_password(link=link, **form.cleaned_data):
            raise Http404
        messages.success(request, "The new password holds. Sign in with it.")
        return redirect("sign_in")
    return render(request, "greens/person/set_password.html", {"form": form})
