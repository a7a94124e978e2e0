"""All examinations in their order; those of the record wait until its database answers."""

from collections.abc import Callable, Iterator

from greens.queries import health
from growin.management.doctor import machine, said, work
from growin.management.doctor.finding import Finding, not_known

EXAMINATIONS: dict[str, Callable[[], Finding]] = {
    "secret key": said.secret_key,
    "debugging": said.debugging,
    "https": said.https,
    "names": said.names,
    "rules": said.rules,
    "today": said.today,
    "files": machine.files,
    "room": machine.room,
    "PDF": machine.press,
    "database": work.database,
    "broker": work.broker,
    "mail": work.mail,
    "backups": work.backups,
}
OF_THE_RECORD: dict[str, Callable[[], Finding]] = {
    "worker": work.worker,
    "queue": work.queue,
    "mail given up": work.given_up,
    "time zones": machine.time_zones,
    "clock": machine.clock,
}


def findings() -> Iterator[tuple[str, Finding]]:
    """What each examination found, one after another."""
    yield from ((name, examine()) for name, examine in EXAMINATIONS.items())
    trouble = health.database_trouble()
    for name, examine in OF_THE_RECORD.items():
        yield (
            name,
            not_known("The database says nothing.", "Mend the database first.") if trouble else examine(),
        )
