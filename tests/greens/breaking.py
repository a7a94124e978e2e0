"""Addresses that break, each in a way of its own, beside those of the site."""

from django.core.exceptions import PermissionDenied, SuspiciousOperation
from django.db import OperationalError
from django.urls import include, path

from greens.config.urls import handler400, handler403, handler404, handler500

__all__ = ["handler400", "handler403", "handler404", "handler500", "urlpatterns"]


def raising(failure: Exception):
    def view(request):
        raise failure

    return view


urlpatterns = [
    path("breaks/", raising(ZeroDivisionError("a sum of ours"))),
    path("away/", raising(OperationalError("no route to a-secret-host"))),
    path("odd/", raising(SuspiciousOperation("odd"))),
    path("shut/", raising(PermissionDenied())),
    path("calendar/<str:secret>/breaks/", raising(ZeroDivisionError("a sum of ours"))),
    path("", include("greens.config.urls")),
]
