"""The worker's application: Redis where there is one, else a folder of messages."""

import logging
import os
from time import perf_counter

from celery import Celery, Task
from celery.signals import beat_embedded_init, setup_logging

from greens.log_line import carrying, told
from growin.management.parent import end_with_parent

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "greens.config.settings")
log = logging.getLogger(__name__)


class ToldTask(Task):
    """Every line that is written while it works carries its name; at its end it has a line of its own."""

    abstract = True

    def __call__(self, *args, **named):
        began = perf_counter()
        with carrying(task=self.name):
            try:
                return super().__call__(*args, **named)
            finally:
                ms = round((perf_counter() - began) * 1000, 1)
                log.info("Task %s took %s ms", self.name, ms, extra=told(ms=ms))


app = Celery("greens", task_cls=ToldTask)
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()


@beat_embedded_init.connect
def clock_ends_with_its_worker(**_) -> None:
    """The worker's clock is a process of its own; it may not go on when the worker was killed."""
    end_with_parent()


@setup_logging.connect
def worker_writes_as_the_site_does(**_) -> None:
    """What a worker says goes where the settings send it; that somebody listens keeps Celery from its own."""
