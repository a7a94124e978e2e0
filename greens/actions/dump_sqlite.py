"""SQLite copied by its own online backup, of one moment, while others read and write."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from greens.queries.tables import NotCopied, Sum

TABLES = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT GLOB 'sqlite_*' ORDER BY name"
WAIT_S = 60


class SQLite:
    def __init__(self, connection):
        self.connection = connection

    def copy(self, to: Path) -> dict[str, Sum]:
        with self.opened() as live, opened(to) as file:
            live.execute("BEGIN")
            sums = sums_in(live)  # the first read fixes the moment, for the copy too
            live.backup(file)
            live.rollback()
        return sums

    def sums_of(self, copy: Path) -> dict[str, Sum]:
        with opened(copy) as file:
            return sound(file)

    def put_back(self, copy: Path) -> dict[str, Sum]:
        self.connection.close()
        with opened(copy) as file, self.opened() as live:
            sound(file)
            file.backup(live)
            return sums_in(live)

    def opened(self):
        """The site's database, past Django's ways of reading values."""
        return opened(self.connection.settings_dict["NAME"])


@contextmanager
def opened(path: Path | str) -> Iterator[sqlite3.Connection]:
    """Raises NotCopied where SQLite cannot do what is asked within the block."""
    try:
        with closing(sqlite3.connect(path, timeout=WAIT_S, uri=str(path).startswith("file:"))) as one:
            yield one
    except sqlite3.Error as failed:
        raise NotCopied(f"SQLite could not read or write its file: {failed}.") from failed


def sound(file: sqlite3.Connection) -> dict[str, Sum]:
    """The sums of a file that SQLite finds sound. Raises NotCopied."""
    said = file.execute("PRAGMA integrity_check").fetchone()[0]
    if said != "ok":
        raise NotCopied(f"The copy is damaged: {said}.")
    return sums_in(file)


def sums_in(file: sqlite3.Connection) -> dict[str, Sum]:
    return {name: summed(file, name) for (name,) in file.execute(TABLES).fetchall()}


def summed(file: sqlite3.Connection, table: str) -> Sum:
    return Sum.over(file.execute(f'SELECT * FROM "{table}" ORDER BY rowid'))
