"""The site as a WSGI application."""

import os

from django.core.wsgi import get_wsgi_application

from greens.config.utf8 import in_utf8

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "greens.config.settings")

application = in_utf8(get_wsgi_application())
