"""What in and out cost: a diary brought in beside its bare insert, a workbook beside its bare reading, and
the memory of a fair copy of 18 greens and 20 seasons. ``BENCH_BOOK_ROWS=100000 pytest -m bench
tests/bench/test_books.py`` brings in 100,000 rows instead of 5,000.

The diary has every kind of row that a season has; bare is ``pandas.read_csv`` and one bulk insert of as many
entries. Times are the processor's own, so that a busy machine disturbs both alike.
"""

import os
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from datetime import date
from io import BytesIO
from pathlib import Path
from time import process_time

import pandas as pd
from django.db import connection
from openpyxl import load_workbook

from greens.actions import book as books
from greens.actions import book_keep as keeping
from greens.actions import job as jobs
from greens.models import Entry, EntryGreen, EntryNutrient, EntryProduct
from greens.validators.book_file import book_table
from tests import books as made
from tests.cast import Cast
from tests.house.sources import ROOT

ROWS = int(os.environ.get("BENCH_BOOK_ROWS", 5_000))
ROWS_OF_A_WORKBOOK, ROUNDS = 3_000, 2
#: 18 greens, 20 seasons, 250 works on each green in a season.
TWENTY_SEASONS = 18 * 20 * 250
MEGABYTE = 1_000_000


@dataclass(frozen=True)
class Race:
    """Seconds of ours and of the bare work."""

    name: str
    ours_s: float
    bare_s: float
    at_most: float

    @property
    def ratio(self) -> float:
        return round(self.ours_s / self.bare_s, 2)


def seconds(work: Callable[[], object]) -> float:
    began = process_time()
    work()
    return process_time() - began


def furnished(cast: Cast) -> None:
    """Eighteen greens laid long ago, and a shed."""
    long_ago = {"works_started_on": date(2005, 8, 1), "established_on": date(2005, 9, 1)}
    type(cast.establishment).objects.filter(pk=cast.establishment.pk).update(**long_ago)
    made.eighteen_greens(cast.club)
    made.shed(cast.head)


def csv_race(cast: Cast, count: int = ROWS) -> Race:
    """A diary brought in, from the upload to the last row kept, its rows judged."""
    file = made.as_csv(made.season_rows(count))
    content = file.read()
    bare = seconds(lambda: bare_import(cast, content))
    Entry.objects.all().delete()
    ours = seconds(lambda: brought_in(cast, file))
    assert Entry.objects.count() == count
    return Race(f"CSV of {count:,} rows", ours, bare, at_most=4.0)


def bare_import(cast: Cast, content: bytes) -> None:
    table = pd.read_csv(BytesIO(content))
    on, by = cast.today, cast.head
    Entry.objects.bulk_create(
        Entry(club=cast.club, kind="cut", on=on, done_by=by, logged_by=by, details={"height_mm": 5})
        for _ in range(len(table))
    )


def brought_in(cast: Cast, file) -> None:
    """Keeping judges every row itself; the look before it is told to stand as found."""
    book = books.take_in(club=cast.club, by=cast.head, kind="diary", file=file)
    book.found = {"faults": 0}
    jobs.do(keeping.queue_import(book=book, by=cast.head).pk, keeping.import_book)


def workbook_race(count: int = ROWS_OF_A_WORKBOOK) -> Race:
    file = made.workbook(made.HEADERS, *made.season_rows(count))
    content = file.read()
    rounds = [
        (seconds(lambda: book_table(file, "diary")), seconds(lambda: bare_reading(content)))
        for _ in range(ROUNDS)
    ]
    ours, bare = (min(times) for times in zip(*rounds, strict=True))
    return Race(f"XLSX of {count:,} rows", ours, bare, at_most=1.5)


def bare_reading(content: bytes) -> list[tuple]:
    return list(load_workbook(BytesIO(content), read_only=True).active.iter_rows(values_only=True))


# ---- memory -----------------------------------------------------------------------------------------


COPIED = {
    Entry: {},
    EntryGreen: {"entry_id": Entry},
    EntryProduct: {"entry_id": Entry},
    EntryNutrient: {"product_id": EntryProduct},
}


def grow_to(count: int) -> None:
    """Entries, lines, products and nutrients copied in the database until there are so many entries."""
    there = Entry.objects.count()
    highest = {model: model.objects.order_by("-pk")[0].pk for model in COPIED}
    for turn in range(1, -(-count // there)):
        for model, parents in COPIED.items():
            ids = {"id": model, **parents}
            copy(model, {name: turn * highest[other] for name, other in ids.items()}, highest[model])


def copy(model, shifts: dict[str, int], upto: int, **other: str) -> None:
    """The first rows of a table once more, their ids shifted, and what is ``other`` in them in the words of
    the database; a sender's own id is drawn anew."""
    columns = [field.column for field in model._meta.concrete_fields]
    said = {name: f'"{name}" + {shift}' for name, shift in shifts.items()}
    said |= {"client_id": "lower(hex(randomblob(16)))", **other}
    values = ", ".join(said.get(name, f'"{name}"') for name in columns)
    names, into = ", ".join(f'"{name}"' for name in columns), model._meta.db_table
    with connection.cursor() as cursor:
        cursor.execute(f'INSERT INTO "{into}" ({names}) SELECT {values} FROM "{into}" WHERE id <= {upto}')


ALONE = """
from pathlib import Path
from greens.models import Club
from growin.exports import fair_copy
from growin.queries.fair_copy import parts
both = fair_copy.as_zip, fair_copy.as_workbook
print(sum(len(piece) for form in both for piece in form(parts(Club.objects.get(slug="{slug}")))))
status = dict(line.split(":") for line in Path("/proc/self/status").read_text().splitlines())
print(int(status["VmHWM"].split()[0]) * 1024)
"""


def copied_to(place: Path) -> None:
    """The database of the test as a file, for another process."""
    with closing(sqlite3.connect(place)) as file:
        connection.connection.backup(file)


def memory(cast: Cast, folder: Path) -> tuple[float, float]:
    """MB written as ZIP and as workbook, and the most memory that a process had in all that does nothing
    else (on Linux). What the system calls the most of a child counts its parent; its own status does not.
    """
    place = folder / "club.sqlite3"
    copied_to(place)
    said = subprocess.run(
        [sys.executable, "manage.py", "shell", "--no-imports", "-c", ALONE.format(slug=cast.club.slug)],
        env=os.environ | {"DATABASE_URL": f"sqlite:///{place}"},
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    written, held = map(int, said.stdout.split())
    return written / MEGABYTE, held / MEGABYTE


def table(races: list[Race], held: tuple[float, float] | None) -> str:
    lines = [f"{'in and out':<24}{'ours, s':>10}{'bare, s':>10}{'times':>8}{'at most':>9}"]
    for one in races:
        lines.append(
            f"{one.name:<24}{one.ours_s:>10.2f}{one.bare_s:>10.2f}{one.ratio:>8.2f}{one.at_most:>9.1f}"
        )
    if held:
        written, peak = held
        what = f"{Entry.objects.count():,} entries out as ZIP and as workbook, {written:.1f} MB"
        lines.append(f"{what}: {peak:.0f} MB held by the whole process")
    return "\n".join(lines)
