"""A site as it stood when its archive was made: files first, then the database, all of it or nothing."""

from pathlib import Path
from tempfile import TemporaryDirectory

from django.db import connection

from greens.actions import archive, dump
from greens.actions.archive import Contents
from greens.actions.backup import refuse_different
from greens.queries import tables


class NotRestored(ValueError):
    """An archive that is not put back; the message is for people. Nothing was changed."""


def restore(*, path: Path, replace: bool = False) -> Contents:
    """Put an archive back; over a site that holds anything only with ``replace``.

    The archive is read to its end and held against its list before anything is touched. Files that it
    does not know stay where they are; nothing in the database speaks of them.
    Raises NotRestored, NotCopied or Broken.
    """
    occupied = tables.first_occupied("default")
    if occupied and not replace:
        raise NotRestored(f"This site is not empty: there are rows in {occupied}. Nothing was changed.")
    if not path.is_file():
        raise NotRestored(f"There is no archive at {path}.")
    with TemporaryDirectory(dir=path.parent) as scratch:
        copy = Path(scratch, "copy")
        contents = archive.check(path, copy=copy)
        refuse_other_kind(contents)
        archive.put_files_back(path)
        refuse_different(contents.tables, dump.of_this_site().put_back(copy))
    return contents


def refuse_other_kind(contents: Contents) -> None:
    if contents.vendor != connection.vendor:
        raise NotRestored(
            f"This archive holds a database of {contents.vendor}; this site runs on {connection.vendor}. "
            "Restore it on a site of its own kind, then move that one with move_to."
        )
