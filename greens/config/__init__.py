"""The site's configuration; the worker's application is loaded with it, or pages could queue nothing."""

from greens.config.celery import app as celery_app

__all__ = ["celery_app"]
