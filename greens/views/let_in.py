"""What every way to sign in ends with, and how whoever guesses at it is slowed."""

from collections.abc import Callable

from django.contrib.auth import login
from django.http import HttpResponse
from django.shortcuts import render

from greens import throttle
from greens.actions import device as devices
from greens.middleware import DEVICE, SEEN
from greens.models import Person

BACKEND = "django.contrib.auth.backends.ModelBackend"


def let_in(request, person: Person, answer: HttpResponse) -> HttpResponse:
    """Begin a session of this person here, and send ``answer``."""
    throttle.forget(request, person.email)
    login(request, person, backend=BACKEND)
    request.session.save()
    agent = request.headers.get("User-Agent", "")
    device = devices.note(person=person, session_key=request.session.session_key, agent=agent)
    request.session[DEVICE], request.session[SEEN] = device.pk, device.used_at.timestamp()
    throttle.know_from_now_on(answer, person.email)
    return answer


def heard(request, form, ask: Callable):
    """What ``ask`` answers to a form that is right, no more often than the throttle allows.

    ``form.mailbox`` is whose secret it holds; ``form.refusal`` stands in the form where nothing was answered.
    """
    form.wait = 0
    if request.method != "POST" or not form.is_valid():
        return None
    form.wait = throttle.wait_seconds(request, form.mailbox)
    answer = None if form.wait else ask()
    if form.wait:
        form.add_error(None, f"Too many tries; wait {form.wait} seconds and try again. Nobody is locked out.")
    elif not answer:
        throttle.note_failure(request, form.mailbox)
        form.add_error(None, form.refusal)
    return answer


def shown(request, form, template: str, **told) -> HttpResponse:
    """The page of such a form; 429 while it is to wait."""
    wait = getattr(form, "wait", 0)
    page = render(request, template, {"form": form, **told}, status=429 if wait else 200)
    if wait:
        page["Retry-After"] = str(wait)
    return page
