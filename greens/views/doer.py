"""Whose work a shared device logs: named in one tap, asked for before a tap that would not say it."""

from collections.abc import Callable
from functools import wraps

from django.shortcuts import redirect
from django.template.response import TemplateResponse
from django.views.decorators.http import require_POST

from greens.access import DOER, Right, door
from greens.views.back import came_from


@door(Right.LOG)
@require_POST
def name_doer(request, here):
    """The door has read the name; back to the page it was tapped on."""
    return redirect(came_from(request) or "front")


def by_somebody(view: Callable) -> Callable:
    """Hang this under the door of a tap: where nobody is named, ask, and then do just what was tapped."""

    @wraps(view)
    def asked(request, here, **rows):
        if here.doer is None:
            asking = {"sent": sent(request), "wrongs": [("", "Say first who did it.")]}
            return TemplateResponse(request, "greens/doer/ask.html", asking)
        return view(request, here, **rows)

    return asked


def sent(request) -> list[tuple[str, str]]:
    """What the tap sent, to be sent again with a name."""
    apart = (DOER, "csrfmiddlewaretoken")
    return [
        (name, value) for name in request.POST if name not in apart for value in request.POST.getlist(name)
    ]
