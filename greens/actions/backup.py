"""The whole site in one archive, proved by restoring it into a scratch place before it counts."""

import fcntl
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from django.db import connection
from django.utils import timezone

from greens.actions import archive, dump
from greens.actions.archive import Broken, Contents

NAME, ALL, UNFINISHED = "greens-%Y-%m-%dT%H%M%SZ.tar.gz", "greens-*.tar.gz", ".unfinished"


class NotBackedUp(ValueError):
    """A backup that cannot be made now; the message is for people."""


@dataclass(frozen=True)
class Backup:
    path: Path
    contents: Contents
    pruned: list[Path]

    @property
    def rows(self) -> int:
        return sum(one.rows for one in self.contents.tables.values())

    @property
    def files(self) -> int:
        return len(self.contents.members) - 1


def back_up(*, folder: Path, keep: int) -> Backup:
    """One more archive in the folder, and old ones beyond ``keep`` taken away.

    It gets its name only after it was read back and its database restored beside the site's own and
    compared. Raises NotBackedUp, NotCopied or Broken; then nothing was taken away.
    """
    if keep < 1:
        raise NotBackedUp(f"{keep} backups cannot be kept; the newest always stays. Ask for 1 or more.")
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    with alone(folder):
        for left in folder.glob(f"*{UNFINISHED}"):
            left.unlink()
        now = timezone.now()
        path = folder / now.strftime(NAME)
        unfinished = path.with_name(path.name + UNFINISHED)
        contents = proved(unfinished, now.isoformat(timespec="seconds"))
        unfinished.rename(path)
        return Backup(path, contents, prune(folder, keep, newest=path))


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """One backup at a time in a folder. Raises NotBackedUp."""
    with (folder / ".lock").open("w") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise NotBackedUp("Another backup is being made in this folder; wait for its end.") from None
        yield


def proved(path: Path, made_at: str) -> Contents:
    """Make an archive, read it back, restore it into a scratch place and compare."""
    site = dump.of_this_site()
    with TemporaryDirectory(dir=path.parent) as scratch:
        copy, again = Path(scratch, "copy"), Path(scratch, "again")
        tables = site.copy(copy)
        archive.write(path, made_at=made_at, vendor=connection.vendor, copy=copy, tables=tables)
        copy.unlink()
        contents = archive.check(path, copy=again)
        refuse_different(tables, site.sums_of(again))
    return contents


def refuse_different(here: dict, there: dict) -> None:
    """Raises Broken, with the first table that is not what it was."""
    if here != there:
        wrong = sorted(name for name in here.keys() | there.keys() if here.get(name) != there.get(name))
        raise Broken(f"The table {wrong[0]} is not what it was when the backup was made.")


def newest_made(folder: Path) -> datetime | None:
    """When the newest that was proved was made; None where there is none."""
    names = sorted(one.name for one in folder.glob(ALL))
    return datetime.strptime(names[-1], NAME).replace(tzinfo=UTC) if names else None


def prune(folder: Path, keep: int, newest: Path) -> list[Path]:
    """Take away what is older than the ``keep`` newest; never the one that was proved just now."""
    others = sorted(set(folder.glob(ALL)) - {newest}, reverse=True)
    for old in others[keep - 1 :]:
        old.unlink()
    return others[keep - 1 :]
