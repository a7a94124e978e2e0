"""Pages for what is not there, not allowed, not understood, or broken: each says what to do."""

import sys

from django.db import InterfaceError, OperationalError
from django.http import HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string

from greens.access import CLOSING

#: So soon a browser or a program may come back to a site whose database was away.
AGAIN_AFTER_S = 30


def refused(request, status: int, title: str, words: str) -> HttpResponse:
    return render(request, "greens/refused/page.html", {"title": title, "words": words}, status=status)


def not_understood(request, exception=None) -> HttpResponse:
    return refused(
        request,
        400,
        "This could not be understood",
        "What was sent is not what this page expects; nothing was saved. Go back, load the page again and "
        "send it once more.",
    )


def not_found(request, exception=None) -> HttpResponse:
    return refused(
        request,
        404,
        "There is no such page",
        "The address may be mistyped, or it belongs to another club. Go back to your club's front page.",
    )


def not_allowed(request, exception=None) -> HttpResponse:
    if str(exception or "") == CLOSING:
        return refused(request, 403, "Nothing was kept", CLOSING)
    return refused(
        request,
        403,
        "Your role does not allow this",
        "Ask the head greenkeeper of the club if you should be able to do it.",
    )


def stale_form(request, reason="") -> HttpResponse:
    return refused(
        request,
        403,
        "This form was too old to be kept",
        "Nothing was saved. Go back, load the page again and send it once more. If it happens every time, "
        "your browser keeps no cookies of this site; let it.",
    )


def broken(request) -> HttpResponse:
    """Our own fault, or that of a database that is away; whichever it is lies in the exception at hand."""
    if isinstance(sys.exc_info()[1], OperationalError | InterfaceError):
        answer = without_database(request, 503, "The record cannot be reached just now", AWAY)
        answer.headers["Retry-After"] = str(AGAIN_AFTER_S)
        return answer
    return without_database(request, 500, "Something failed on our side", FAILED)


AWAY = (
    "Nothing was saved just now, and nothing that was kept before is lost. Go back and try again in a minute."
)
FAILED = "Nothing was half saved. Go back and try again in a minute."


def without_database(request, status: int, title: str, words: str) -> HttpResponse:
    """A page that asks nobody who is looking, with the number under which our log tells what happened."""
    said = {"title": title, "words": words, "number": getattr(request, "id", "")}
    return HttpResponse(render_to_string("greens/refused/broken.html", said), status=status)
