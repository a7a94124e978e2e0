"""The worker's application: Redis where there is one, else a folder of messages."""

import os

from celery import Celery
from celery.signals import beat_embedded_init

from growin.management.parent import end_with_parent

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "greens.config.settings")

app = Celery("greens")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()


@beat_embedded_init.connect
def clock_ends_with_its_worker(**_) -> None:
    """The worker's clock is a process of its own; it may not go on when the worker was killed."""
    end_with_parent()
