"""``manage.py sweep``: from cron, what a worker would do all day, for a club that runs none."""

import logging
import time

from celery import current_app
from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from greens.actions import closing, job, mail
from greens.queries import job as jobs
from growin.actions import forecast, lookout, warning

log = logging.getLogger(__name__)

#: Cron comes again; so long a sweep goes on where there is more to do.
LONGEST_S = 240


class Command(BaseCommand):
    help = "Do once what is due: long work, forecasts, looks, warnings, mail. For cron, every five minutes."

    def handle(self, **options):
        self.over_at, self.broken = time.monotonic() + LONGEST_S, []
        current_app.loader.import_default_modules()  # a worker knows all kinds of work; a command none
        self.tried(job.sweep)
        self.tried(forecast.queue_due)
        done = self.tried(self.do_jobs)
        looked = self.tried(lookout.look_round, self.until_none)
        gone_on = self.tried(warning.go_on)
        self.tried(closing.sweep)
        sent = self.tried(mail.send_due, self.until_none)
        if not settings.REDIS_URL:
            current_app.control.purge()  # messages to a worker that nobody runs
        self.stdout.write(
            f"{done} jobs done, {looked} clubs looked at, {gone_on} warnings gone on, {sent} mails sent."
        )
        if self.broken:
            raise CommandError("\n".join(self.broken))

    def tried(self, work, do=None) -> int:
        """How much it did; what breaks is said at the end and keeps nothing after it from being done."""
        try:
            return do(work) if do else work()
        except Exception as failed:
            log.exception("A sweep broke")
            self.broken.append(f"{work.__name__} broke: {type(failed).__name__}: {failed}")
            return 0

    def do_jobs(self) -> int:
        done = 0
        for one in jobs.waiting():
            current_app.tasks[one.kind].apply(args=[one.pk])
            done += 1
            if time.monotonic() > self.over_at:
                break
        return done

    def until_none(self, work) -> int:
        """Again and again while there is something to do, and time."""
        total = found = work()
        while found and time.monotonic() < self.over_at:
            found = work()
            total += found
        return total
