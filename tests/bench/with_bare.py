"""The site as a WSGI application with the bare page beside its own, for measurements from outside."""

from django.conf import settings

from greens.config.wsgi import application

settings.ROOT_URLCONF = "tests.bench.bare"

__all__ = ["application"]
