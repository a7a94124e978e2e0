"""``manage.py sweep``: from cron, what a worker would do all day, for a club that runs none."""

import time

from celery import current_app
from django.conf import settings
from django.core.management.base import BaseCommand

from greens.actions import job, mail
from greens.queries import job as jobs
from growin.actions import forecast, lookout, warning

#: Cron comes again; so long a sweep goes on where there is more to do.
LONGEST_S = 240


class Command(BaseCommand):
    help = "Do once what is due: long work, forecasts, looks, warnings, mail. For cron, every five minutes."

    def handle(self, **options):
        over_at = time.monotonic() + LONGEST_S
        current_app.loader.import_default_modules()  # a worker knows all kinds of work; a command none
        job.sweep()
        forecast.queue_due()
        done = self.do_jobs(over_at)
        looked = until_none(lookout.look_round, over_at)
        gone_on = warning.go_on()
        sent = until_none(mail.send_due, over_at)
        if not settings.REDIS_URL:
            current_app.control.purge()  # messages to a worker that nobody runs
        self.stdout.write(
            f"{done} jobs done, {looked} clubs looked at, {gone_on} warnings gone on, {sent} mails sent."
        )

    def do_jobs(self, over_at: float) -> int:
        done = 0
        for one in jobs.waiting():
            current_app.tasks[one.kind].apply(args=[one.pk])
            done += 1
            if time.monotonic() > over_at:
                break
        return done


def until_none(work, over_at: float) -> int:
    """Again and again while there is something to do, and time."""
    total = found = work()
    while found and time.monotonic() < over_at:
        found = work()
        total += found
    return total
