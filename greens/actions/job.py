"""Long work: queued as a row, nudged after the commit, claimed once, swept when it was lost.

The row is the truth; the message to the worker may get lost or come twice. Whoever takes a job
up changes its row with a condition, so that it is taken up once; and ends it only while the row
still says that it is theirs.
"""

import logging
from collections.abc import Callable
from datetime import timedelta

from celery import current_app
from django.db import IntegrityError, transaction
from django.db.models import F
from django.utils import timezone

from greens.actions.heartbeat import beat
from greens.choices import JobState
from greens.log_line import carrying
from greens.models import Club, Job, Membership
from greens.queries import job as queries

log = logging.getLogger(__name__)

NUDGE_AGAIN_AFTER = timedelta(minutes=1)
LOST_AFTER = timedelta(minutes=10)
FORGET_AFTER = timedelta(days=90)
MOST_TRIES = 3
LATE_NUDGE_EXPIRES_S = 55
BROKEN = "It ended with an error on our side; nothing was kept. Try again, or tell whoever runs the site."
GIVEN_UP = "It was begun three times and never came to its end; nothing of it was kept."


class NotDone(ValueError):
    """Work that cannot be done; the message is for people."""


class Superseded(Exception):
    """The job was thought lost and somebody else has it now."""


def queue_job(
    *, club: Club, kind: str, args: dict, by: Membership | None = None, unique_key: str = ""
) -> Job:
    """Put a job in the queue; under a ``unique_key`` there is one open job at a time, and it is returned."""
    try:
        with transaction.atomic():
            job = Job.objects.create(
                club=club, kind=kind, args=args, by=by, unique_key=unique_key, heard_at=timezone.now()
            )
    except IntegrityError:
        return queries.open_one(club, unique_key)
    transaction.on_commit(lambda: nudge(job), robust=True)
    return job


def nudge(job: Job, **options) -> None:
    """Tell the worker that there is a job; the row stands even when nobody hears it."""
    current_app.send_task(job.kind, [job.pk], **options)


def do(job_id: int, work: Callable[[Job], dict]) -> None:
    """Take a job up, do it, and keep how it ended. Does nothing when somebody else has it or had it."""
    with carrying(job=job_id):
        job = claim(job_id)
        if job is not None:
            _work(job, work)


def _work(job: Job, work: Callable[[Job], dict]) -> None:
    try:
        result = work(job)
    except NotDone as refused:
        end(job, JobState.FAILED, error=str(refused)[:500])
    except Superseded:
        log.warning("Job %s went on after it was thought lost", job.pk)
    except Exception:
        log.exception("Job %s (%s) broke", job.pk, job.kind)
        end(job, JobState.FAILED, error=BROKEN)
    else:
        end(job, JobState.DONE, result=result)


def claim(job_id: int) -> Job | None:
    """The job, now ours; None when it was not waiting."""
    now = timezone.now()
    waiting = Job.objects.filter(pk=job_id, state=JobState.QUEUED)
    taken = waiting.update(state=JobState.RUNNING, started_at=now, heard_at=now, tries=F("tries") + 1)
    return Job.objects.select_related("club", "by").get(pk=job_id) if taken else None


def say_how_far(job: Job, done: int, of: int) -> None:
    """Keep how far it is, and that it lives. Raises Superseded when it is not ours any more."""
    if not _ours(job).update(done_count=done, of_count=of, heard_at=timezone.now()):
        raise Superseded


def end(job: Job, state: JobState, *, result: dict | None = None, error: str = "") -> bool:
    """Keep how it ended; false when it was not ours any more."""
    now = timezone.now()
    ended = {"state": state, "result": result or {}, "error": error, "finished_at": now, "heard_at": now}
    log.info("Job %s (%s): %s", job.pk, job.kind, state)
    return _ours(job).update(**ended) == 1


def _ours(job: Job):
    return Job.objects.filter(pk=job.pk, state=JobState.RUNNING, tries=job.tries)


def sweep() -> None:
    """Find what was lost: nudge what waits, queue again what fell silent, forget what is long over."""
    beat()
    now = timezone.now()
    lost = queries.silent(JobState.RUNNING, now - LOST_AFTER)
    lost.filter(tries__gte=MOST_TRIES).update(state=JobState.GIVEN_UP, error=GIVEN_UP, finished_at=now)
    lost.update(state=JobState.QUEUED, done_count=0)
    for job in queries.silent(JobState.QUEUED, now - NUDGE_AGAIN_AFTER):
        nudge(job, expires=LATE_NUDGE_EXPIRES_S)
    queries.over_since(now - FORGET_AFTER).delete()
