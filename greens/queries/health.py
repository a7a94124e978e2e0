"""How the site itself is: whether database and broker answer, what waits and for how long, who sweeps.

Each look stands for itself and keeps nothing; none names an address, a club or a person.
"""

import os
from collections.abc import Iterator
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from functools import cache

from django.conf import settings
from django.db import DatabaseError, connection
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder
from django.db.models import Min, QuerySet
from django.utils import timezone
from redis import Redis, RedisError
from redis.backoff import NoBackoff
from redis.retry import Retry

from greens.choices import JobState, Sending
from greens.models import Club, Heartbeat, Job, Mail, TrailLine
from growin.agronomy.plain_words import counted

#: So long a broker is waited for.
PATIENCE_S = 2
#: Two sweeps of a cron that comes every five minutes.
SILENT_AFTER = timedelta(minutes=10)

NO_DATABASE = "The database does not answer."
NOT_MIGRATED = "The database is not up to date with the program; run manage.py migrate."
NO_BROKER = "The broker does not answer, so that no worker hears of new work."
JOBS_WAIT = "Long work has waited for {}; a worker is missing or too slow."
MAILS_WAIT = "Mail has waited for {}; a worker is missing or too slow."


def troubles() -> Iterator[str]:
    """A sentence for everything that keeps the site from doing its work; none where all is well."""
    if database := database_trouble():
        yield database
    if not broker_answers():
        yield NO_BROKER
    if not database:
        yield from waiting_too_long()


def database_trouble() -> str:
    """What is wrong with the database; empty when it answers and has every table as we know it."""
    try:
        return NOT_MIGRATED if migrations_missing() else ""
    except DatabaseError:
        return NO_DATABASE


def migrations_missing() -> set[tuple[str, str]]:
    """App and name of those newest migrations that the database has not seen. Raises DatabaseError."""
    return newest_migrations() - set(MigrationRecorder(connection).applied_migrations())


@cache
def newest_migrations() -> frozenset[tuple[str, str]]:
    return frozenset(MigrationLoader(None).graph.leaf_nodes())


def broker_answers() -> bool:
    """Whether a message could be left for a worker now."""
    if settings.REDIS_URL:
        return redis_answers()
    options = settings.CELERY_BROKER_TRANSPORT_OPTIONS
    return all(os.access(options[folder], os.W_OK) for folder in ("data_folder_in", "control_folder"))


def redis_answers() -> bool:
    once = {
        "socket_connect_timeout": PATIENCE_S,
        "socket_timeout": PATIENCE_S,
        "retry": Retry(NoBackoff(), 0),
    }
    with suppress(RedisError, OSError), Redis.from_url(settings.REDIS_URL, **once) as one:
        return one.ping()
    return False


def waiting_too_long() -> Iterator[str]:
    """Sentences about work and mail that wait longer than they should."""
    for words, age in ((JOBS_WAIT, oldest_job()), (MAILS_WAIT, oldest_mail())):
        if age > settings.LONGEST_WAIT:
            yield words.format(counted(int(age.total_seconds() // 60), "minutes"))


def waiting_jobs() -> QuerySet[Job]:
    return Job.objects.filter(state=JobState.QUEUED)


def due_mails() -> QuerySet[Mail]:
    """Those that should be on their way; one that waits for its next try is not among them."""
    return Mail.objects.filter(state=Sending.WAITING, next_try_at__lte=timezone.now())


def oldest_job() -> timedelta:
    """How long the oldest job has waited for a worker; nothing where none waits."""
    return since(waiting_jobs().aggregate(at=Min("heard_at"))["at"])


def oldest_mail() -> timedelta:
    """How long the oldest mail has been due; nothing where none is."""
    return since(due_mails().aggregate(at=Min("next_try_at"))["at"])


def last_sweep() -> datetime | None:
    """When somebody last swept; None where nobody ever did."""
    return Heartbeat.objects.aggregate(at=Min("at"))["at"]


def newest_moment() -> datetime | None:
    """When the newest line of the record of changes or the last sweep was written."""
    line = TrailLine.objects.order_by("-pk").values_list("at", flat=True).first()
    return max(filter(None, (line, last_sweep())), default=None)


def clock_of_the_database() -> datetime:
    """What the server of the database takes for now."""
    with connection.cursor() as cursor:
        cursor.execute("SELECT CURRENT_TIMESTAMP")
        said = cursor.fetchone()[0]
    return said if isinstance(said, datetime) else datetime.fromisoformat(said).replace(tzinfo=UTC)


def time_zones() -> list[str]:
    """Every time zone that a club lives in."""
    return list(Club.objects.order_by().values_list("time_zone", flat=True).distinct())


def mails_given_up() -> int:
    """How many of the last week never left."""
    since = timezone.now() - timedelta(days=7)
    return Mail.objects.filter(state=Sending.GIVEN_UP, made_at__gte=since).count()


def is_looked_after() -> bool:
    """Whether a worker, or cron in its place, has swept lately."""
    swept = last_sweep()
    return swept is not None and since(swept) <= SILENT_AFTER


def since(moment: datetime | None) -> timedelta:
    return max(timezone.now() - moment, timedelta(0)) if moment else timedelta(0)
