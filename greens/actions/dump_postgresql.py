"""PostgreSQL copied by its own programs, of one moment, while others read and write."""

import os
import secrets
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import psycopg
from django.db.backends.postgresql.client import DatabaseClient
from psycopg import sql

from greens.queries.tables import NotCopied, Sum

TABLES = (
    "SELECT table_name FROM information_schema.tables "
    "WHERE table_schema = 'public' AND table_type = 'BASE TABLE' ORDER BY 1"
)
#: Rows hashed where they lie, in any order.
SUMMED = "SELECT count(*), coalesce(sum(hashtextextended(one::text, 0)), 0)::text FROM public.{} AS one"
MINE_ALONE = ("--no-owner", "--no-privileges")
WAIT_FOR_OTHERS = "SET lock_timeout = '30s'"


class PostgreSQL:
    def __init__(self, connection):
        self.connection = connection
        self.name = connection.settings_dict["NAME"]

    def copy(self, to: Path) -> dict[str, Sum]:
        with self.opened() as live:
            live.isolation_level = psycopg.IsolationLevel.REPEATABLE_READ
            moment = live.execute("SELECT pg_export_snapshot()").fetchone()[0]
            how = ("--format=custom", *MINE_ALONE, f"--snapshot={moment}", f"--file={to}")
            self.run("pg_dump", *how, f"--dbname={self.name}")
            return sums_in(live)

    def sums_of(self, copy: Path) -> dict[str, Sum]:
        with self.scratch() as name:
            how = ("--exit-on-error", "--single-transaction", *MINE_ALONE)
            self.run("pg_restore", *how, f"--dbname={name}", str(copy))
            with self.opened(name) as there:
                return sums_in(there)

    def put_back(self, copy: Path) -> dict[str, Sum]:
        """In one transaction of ``psql``: a dump that breaks off half-way never gets that far."""
        self.connection.close()
        script = copy.with_suffix(".sql")
        self.run("pg_restore", *MINE_ALONE, f"--file={script}", str(copy))
        first = (WAIT_FOR_OTHERS, "DROP SCHEMA public CASCADE", "CREATE SCHEMA public")
        steps = [f"--command={statement}" for statement in first]
        how = ("--no-psqlrc", "--quiet", "--set=ON_ERROR_STOP=1", "--single-transaction")
        self.run("psql", *how, f"--dbname={self.name}", *steps, f"--file={script}")
        with self.opened() as live:
            return sums_in(live)

    @contextmanager
    def opened(self, name: str = "", **more) -> Iterator[psycopg.Connection]:
        """A database of the site's server, past Django. Raises NotCopied for what fails within the block."""
        asked = self.connection.get_connection_params() | {"dbname": name or self.name}
        try:
            with psycopg.connect(**asked, **more) as one:
                yield one
        except psycopg.Error as failed:
            raise NotCopied(f"PostgreSQL says: {failed}".strip()) from failed

    @contextmanager
    def scratch(self) -> Iterator[str]:
        """An empty database beside the site's own, gone with the block."""
        name = f"greens_check_{secrets.token_hex(6)}"
        quoted = sql.Identifier(name)
        with self.opened(autocommit=True) as server:
            server.execute(sql.SQL("CREATE DATABASE {} TEMPLATE template0").format(quoted))
            try:
                yield name
            finally:
                server.execute(sql.SQL("DROP DATABASE {} WITH (FORCE)").format(quoted))

    def run(self, program: str, *arguments: str) -> None:
        """One of PostgreSQL's programs, on the site's server. Raises NotCopied."""
        settings = self.connection.settings_dict
        (_, *where, _), named = DatabaseClient.settings_to_cmd_args_env(settings, [])
        how = {"env": os.environ | (named or {}), "capture_output": True, "text": True}
        try:
            done = subprocess.run([program, *where, *arguments], **how)
        except FileNotFoundError:
            raise NotCopied(
                f"{program} is not installed here; it comes with the client of PostgreSQL "
                "(on Debian and Ubuntu: apt install postgresql-client)."
            ) from None
        if done.returncode:
            raise NotCopied(f"{program} says: {done.stderr.strip() or done.returncode}")


def sums_in(database: psycopg.Connection) -> dict[str, Sum]:
    database.execute("SET TimeZone TO 'UTC'")
    names = [name for (name,) in database.execute(TABLES).fetchall()]
    return {name: summed(database, name) for name in names}


def summed(database: psycopg.Connection, table: str) -> Sum:
    count, digest = database.execute(sql.SQL(SUMMED).format(sql.Identifier(table))).fetchone()
    return Sum(count, digest)
