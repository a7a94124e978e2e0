"""Machines are answered before anything else looks at a request: by whatever name or address they call,
over http too, without session, cookie or club."""

from collections.abc import Callable

from django.http import HttpResponse

from greens.views import health
from growin.views.metrics import metrics

ASKED_BY_MACHINES: dict[str, Callable[..., HttpResponse]] = {
    "/healthz": health.alive,
    "/readyz": health.ready,
    "/metrics": metrics,
}


def machines_before_people(get_response):
    def answer(request):
        view = ASKED_BY_MACHINES.get(request.path_info)
        return view(request) if view else get_response(request)

    return answer
