"""Counts and gauges in the open text format, for a program that shows the token of the site."""

from django.conf import settings
from django.http import HttpResponse
from django.utils.crypto import constant_time_compare
from prometheus_client import exposition

from greens.views.health import plain
from growin.gauges import everything


def metrics(request) -> HttpResponse:
    """404 on a site that has set no token, 401 to whoever does not show it."""
    if not settings.METRICS_TOKEN:
        return plain("This site shows no metrics; GREENS_METRICS_TOKEN is not set.", status=404)
    if not shows_the_token(request):
        refused = plain("Show the token of the site: Authorization: Bearer …", status=401)
        refused.headers["WWW-Authenticate"] = "Bearer"
        return refused
    write, kind = exposition.choose_encoder(request.headers.get("Accept", ""))
    return HttpResponse(write(everything(settings.METRICS_DIR)), kind, headers={"Cache-Control": "no-store"})


def shows_the_token(request) -> bool:
    scheme, _, shown = request.headers.get("Authorization", "").partition(" ")
    return scheme.lower() == "bearer" and constant_time_compare(shown.strip(), settings.METRICS_TOKEN)
