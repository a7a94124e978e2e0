"""A copy of the site's database, by the ways of the database that it runs on."""

from pathlib import Path
from typing import Protocol

from django.db import connection

from greens.actions.dump_postgresql import PostgreSQL
from greens.actions.dump_sqlite import SQLite
from greens.queries.tables import Sum


class Dump(Protocol):
    """What backup and restore ask of a database. All raise NotCopied."""

    def copy(self, to: Path) -> dict[str, Sum]:
        """Write one moment of the database to a file while the site goes on; the sums of that moment."""

    def sums_of(self, copy: Path) -> dict[str, Sum]:
        """The sums of a copy, after it was restored into a scratch place that is gone again."""

    def put_back(self, copy: Path) -> dict[str, Sum]:
        """Put a copy in the place of the database, all or nothing; the sums of what stands there then."""


def of_this_site() -> Dump:
    return {"sqlite": SQLite, "postgresql": PostgreSQL}[connection.vendor](connection)
