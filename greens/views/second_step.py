"""The code beside the password: asked at sign-in, turned on and off by its owner."""

from io import BytesIO

import segno
from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters, sensitive_variables
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from greens.actions import people
from greens.actions import second_step as actions
from greens.forms.person import GiveCode, OwnPassword
from greens.models import Person
from greens.queries import second_step as queries
from greens.queries.people import by_pk
from greens.views.let_in import heard, let_in, shown
from greens.views.own import own_page

#: Who has given the password, and how long it counts.
HALF, HALF_FOR_S = "half_signed_in", 600


def ask(request, person: Person, target: str) -> HttpResponse | None:
    """On to the page that asks for the code; none for somebody of whom none is asked."""
    if queries.of(person) is None:
        return None
    request.session.cycle_key()
    request.session[HALF] = {"person": person.pk, "at": timezone.now().timestamp(), "next": target}
    return redirect("give_code")


def half_signed_in(request) -> Person | None:
    half = request.session.get(HALF)
    if half is None or timezone.now().timestamp() - half["at"] > HALF_FOR_S:
        return None
    return by_pk(half["person"])


@sensitive_post_parameters("code")
@never_cache
@require_http_methods(["GET", "POST"])
def give_code(request):
    person = half_signed_in(request)
    step = queries.of(person) if person else None
    if step is None:
        return redirect("sign_in")
    form = GiveCode(person, request.POST or None)
    if not heard(request, form, lambda: actions.is_right(step=step, code=form.cleaned_data["code"])):
        return shown(request, form, "greens/second_step/give.html")
    half = request.session.pop(HALF)
    return let_in(request, person, redirect(half["next"] or "front"))


@own_page
@require_GET
def second_step(request):
    step = queries.of(request.user)
    told = {"step": step, "spare_left": queries.spare_left(step) if step else 0}
    return render(request, "greens/second_step/page.html", told | {"form": OwnPassword(person=request.user)})


@sensitive_post_parameters("current")
@own_page
@require_POST
def begin(request):
    """A new key, for whoever knows the password."""
    form = OwnPassword(request.POST, person=request.user)
    if not heard(request, form, form.is_own):
        return shown(request, form, "greens/second_step/page.html", step=queries.of(request.user))
    if queries.of(request.user) is None:
        actions.begin(person=request.user)
    return redirect("set_up_code")


@sensitive_variables("codes")
@sensitive_post_parameters("code")
@own_page
@require_http_methods(["GET", "POST"])
def set_up(request):
    """The key to scan, then a first code of it; the spare codes stand in that answer alone."""
    step = queries.being_set_up(request.user)
    if step is None:
        return redirect("second_step")
    form = GiveCode(request.user, request.POST or None)
    codes = heard(request, form, lambda: actions.turn_on(step=step, code=form.cleaned_data["code"]))
    if not codes:
        told = {"key": actions.grouped(actions.key_of(step)), "address": actions.address_of(step)}
        return shown(request, form, "greens/second_step/set_up.html", **told)
    people.tell_of_sign_in(person=request.user, what="asks for a code beside the password from now on")
    return render(request, "greens/second_step/spare.html", {"codes": codes})


@own_page
@require_GET
def key_picture(request):
    """The key as a picture to scan, while it is being set up and never after."""
    step = queries.being_set_up(request.user)
    if step is None:
        raise Http404
    picture = BytesIO()
    segno.make(actions.address_of(step), error="m").save(picture, kind="svg", scale=6, border=4, light="#fff")
    return HttpResponse(picture.getvalue(), content_type="image/svg+xml")


@sensitive_variables("codes")
@sensitive_post_parameters("current")
@own_page
@require_POST
def spare_codes(request):
    """Ten new ones, for whoever knows the password."""
    step, form = queries.of(request.user), OwnPassword(request.POST, person=request.user)
    if step is None:
        return redirect("second_step")
    if not heard(request, form, form.is_own):
        left = queries.spare_left(step)
        return shown(request, form, "greens/second_step/page.html", step=step, spare_left=left)
    codes = actions.new_spare_codes(step=step)
    return render(request, "greens/second_step/spare.html", {"codes": codes})


@sensitive_post_parameters("current")
@own_page
@require_POST
def take_off(request):
    step, form = queries.of(request.user), OwnPassword(request.POST, person=request.user)
    if not heard(request, form, form.is_own):
        return shown(request, form, "greens/second_step/page.html", step=step)
    if actions.take_off(person=request.user):
        people.tell_of_sign_in(person=request.user, what="asks for no code beside the password any more")
        messages.success(request, "Your password alone signs you in again.")
    return redirect("second_step")
