"""What many clubs weigh on PostgreSQL: ``python -m tests.services python -m tests.bench.rows``.

One season of a club with 18 greens, its rows and their bytes by table, indexes included; then the same rows
again for so many clubs more, and the pages of a day of the first club before and after: milliseconds in the
database, and every table that a page would read from end to end.
"""

import json
import os
import sys
from argparse import ArgumentParser
from collections.abc import Iterator
from dataclasses import asdict, dataclass

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "greens.config.settings")
django.setup()

from django.apps import apps  # noqa: E402
from django.core.management import call_command  # noqa: E402
from django.db import connection  # noqa: E402
from django.db.models import Field, ForeignKey, Model  # noqa: E402
from django.test import Client, override_settings  # noqa: E402
from django.test.utils import CaptureQueriesContext  # noqa: E402

from greens import models as kept  # noqa: E402
from greens.actions.trail import mark_anew  # noqa: E402
from growin.actions.programme import issue_programme  # noqa: E402
from tests.bench.furnish import DAY  # noqa: E402
from tests.bench.measured import inside, read  # noqa: E402
from tests.bench.seasons import TODAY  # noqa: E402
from tests.bench.seasons_before import AGAIN, long_club  # noqa: E402

GREENS, COPIES = 18, 200
#: What a season's rows belong to.
OWNERS = (
    kept.Person, kept.Club, kept.Membership, kept.Green, kept.Establishment, kept.Product, kept.Label,
    kept.LabelLine,
)  # fmt: skip
#: Ids of one club's copy lie so far from those of the next.
APART = 10_000_000
#: A table that is read from end to end matters from so many rows on.
MANY = 10_000


@dataclass(frozen=True)
class Table:
    """Rows of one club's season, and what a row takes on the disk with its share of the indexes."""

    name: str
    rows: int
    bytes_a_row: int
    of_it_indexes: int

    @property
    def mb(self) -> float:
        return self.rows * self.bytes_a_row / 1e6


@dataclass(frozen=True)
class Visit:
    """A page right after the record changed: queries, ms in the database, tables read from end to end."""

    queries: int
    ms: float
    read_whole: list[str]


def copied(model: type[Model]) -> str:
    """The statement that copies all rows of the first club for others: every id is moved by as much, and a
    name of which there may be one only gets the number of the copy."""
    values = {one.column: value_of(one) for one in model._meta.concrete_fields}
    names, taken = ", ".join(f'"{one}"' for one in values), ", ".join(values.values())
    table = model._meta.db_table
    return (
        f'INSERT INTO "{table}" ({names}) SELECT {taken} FROM "{table}", generate_series(1, %s) AS n '
        f"WHERE id < {APART} ON CONFLICT DO NOTHING"
    )


def value_of(field: Field) -> str:
    if field.primary_key or isinstance(field, ForeignKey):
        return f'"{field.column}" + n * {APART}::bigint'
    return f'n || "{field.column}"' if field.unique else f'"{field.column}"'


def copy_to(copies: int) -> None:
    """Clubs, people, greens and shed first, or the database would plan for a club that is alone."""
    with connection.cursor() as cursor:
        cursor.execute("SET session_replication_role = replica")  # what is referred to may come later
        for model in (*OWNERS, *AGAIN):
            cursor.execute(copied(model), [copies])
        cursor.execute("SET session_replication_role = DEFAULT")
    with connection.cursor() as cursor:
        cursor.execute("VACUUM ANALYZE")


def tables(copies: int) -> list[Table]:
    return sorted((table(model, copies) for model in AGAIN), key=lambda one: -one.mb)


def table(model: type[Model], copies: int) -> Table:
    name = model._meta.db_table
    with connection.cursor() as cursor:
        cursor.execute("SELECT pg_total_relation_size(%s), pg_indexes_size(%s)", [name, name])
        whole, indexes = cursor.fetchone()
    rows = model.objects.count()
    return Table(name, rows // (copies + 1), whole // max(rows, 1), indexes // max(rows, 1))


def visits(client: Client, club, paths: dict[str, str]) -> dict[str, Visit]:
    return {name: visit(client, club, path) for name, path in paths.items()}


def visit(client: Client, club, path: str) -> Visit:
    """The quicker of two, so that no page pays for what the database read in first."""
    asked = []
    for _ in range(2):
        mark_anew(club.pk)
        with CaptureQueriesContext(connection) as seen:
            read(client, path)
        asked.append((sum(float(one["time"]) for one in seen) * 1000, [one["sql"] for one in seen]))
    ms, statements = min(asked)
    return Visit(len(statements), round(ms, 1), sorted(set(read_whole(statements))))


def read_whole(statements: list[str]) -> Iterator[str]:
    for statement in statements:
        if statement.startswith("SELECT"):
            with connection.cursor() as cursor:
                cursor.execute("EXPLAIN (FORMAT JSON) " + statement.replace("%", "%%"))
                yield from scanned(cursor.fetchone()[0][0]["Plan"])


def scanned(plan: dict) -> Iterator[str]:
    if plan["Node Type"] == "Seq Scan" and size(plan["Relation Name"]) > MANY:
        yield plan["Relation Name"]
    for part in plan.get("Plans", []):
        yield from scanned(part)


def size(name: str) -> float:
    with connection.cursor() as cursor:
        cursor.execute("SELECT reltuples FROM pg_class WHERE relname = %s", [name])
        return cursor.fetchone()[0]


def measured(copies: int) -> tuple[list[Table], dict[str, tuple[Visit, Visit]]]:
    made, rows = long_club(1, GREENS)
    issue_programme(establishment=made.rebuilds[0], by=made.head, on=TODAY)
    client = Client(raise_request_exception=False)
    client.force_login(made.head.person)
    paths = {name: path for name, path in inside(rows) if name in DAY}
    with connection.cursor() as cursor:
        cursor.execute("VACUUM ANALYZE")
    alone = visits(client, made.club, paths)
    copy_to(copies)
    among = visits(client, made.club, paths)
    return tables(copies), {name: (alone[name], among[name]) for name in paths}


def shown(found: list[Table], pages: dict[str, tuple[Visit, Visit]], copies: int) -> str:
    lines = [f"{'rows of one season of 18 greens':<34}{'rows':>8}{'bytes a row':>13}{'indexes':>9}{'MB':>7}"]
    for one in found:
        lines.append(f"{one.name:<34}{one.rows:>8}{one.bytes_a_row:>13}{one.of_it_indexes:>9}{one.mb:>7.2f}")
    lines.append(
        f"{'together':<34}{sum(one.rows for one in found):>8}{'':>22}{sum(one.mb for one in found):>7.2f}"
    )
    lines.append(f"\n{'ms in the database':<20}{'alone':>8}{f'among {copies}':>12}{'queries':>9}  read whole")
    for name, (alone, among) in sorted(pages.items(), key=lambda pair: -pair[1][1].ms):
        whole = ", ".join(among.read_whole)
        lines.append(f"{name:<20}{alone.ms:>8.1f}{among.ms:>12.1f}{among.queries:>9}  {whole}")
    return "\n".join(lines)


def as_json(found: list[Table], pages: dict[str, tuple[Visit, Visit]]) -> str:
    visits = {name: [asdict(one) for one in both] for name, both in pages.items()}
    return json.dumps({"tables": [asdict(one) for one in found], "pages": visits})


def main() -> int:
    asked = ArgumentParser(description="what many clubs weigh on PostgreSQL")
    asked.add_argument("--copies", type=int, default=COPIES)
    copies = asked.parse_args().copies
    if connection.vendor != "postgresql" or apps.get_model("greens", "Club")._meta.db_table in (
        connection.introspection.table_names()
    ):
        raise SystemExit("It wants an empty PostgreSQL: python -m tests.services python -m tests.bench.rows")
    with override_settings(ALLOWED_HOSTS=["*"], FIXED_TODAY=TODAY):
        call_command("migrate", verbosity=0)
        found, pages = measured(copies)
    print(f"{shown(found, pages, copies)}\n{as_json(found, pages)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
