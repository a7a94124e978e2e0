"""``manage.py migrate``, safe where several processes start at once: one does it, the others wait for it."""

import time
from collections.abc import Iterator
from contextlib import contextmanager

from django.core.management.commands import migrate
from django.db import connections

#: Any number that nobody else takes: advisory locks are known by their number alone.
LOCK = 20_260_416
PAUSE_S = 0.5


class Command(migrate.Command):
    def handle(self, *args, **options):
        with one_at_a_time(connections[options["database"]]):
            return super().handle(*args, **options)


@contextmanager
def one_at_a_time(connection) -> Iterator[None]:
    """A turn of our own on PostgreSQL, given up by the server too when this process dies.

    It is asked for again and again instead of waited for in the server: a statement that waits would
    hold up an index that is built beside the running site.
    """
    if connection.vendor != "postgresql":
        yield
        return
    while not said(connection, "pg_try_advisory_lock"):
        time.sleep(PAUSE_S)
    try:
        yield
    finally:
        said(connection, "pg_advisory_unlock")


def said(connection, lock: str) -> bool:
    with connection.cursor() as cursor:
        cursor.execute(f"SELECT {lock}(%s)", [LOCK])
        return cursor.fetchone()[0]
