"""A club's own book looked at, and kept as one piece."""

import csv
from collections.abc import Mapping
from io import StringIO
from types import ModuleType

from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from greens.actions import book_diary, book_products, book_readings, trail
from greens.actions import job as jobs
from greens.actions.book import forget_files
from greens.actions.book_rows import Told
from greens.choices import BookKind
from greens.models import Book, Club, Job, Membership
from greens.queries import book as queries
from greens.validators.book_file import BookTable
from greens.validators.plain_cells import guarded
from growin.agronomy.plain_words import counted

LOOK, IMPORT = "look into a book", "bring in a book"
#: So few rows are looked at while the page waits.
AT_ONCE_ROWS = 1_000
FAULTS_SHOWN, SAMPLED, MOST_TRIES = 30, 6, 3
GONE = "The file was cleared away because nobody kept it within a week; upload it again."
MORE_FAULTS = "The record changed since you looked: {} cannot be kept now. Nothing was kept; look again."
KINDS: Mapping[str, ModuleType] = {
    BookKind.DIARY: book_diary,
    BookKind.PRODUCTS: book_products,
    BookKind.READINGS: book_readings,
}


# ---- the look ---------------------------------------------------------------------------------------


def look(book: Book, say=lambda done, of: None) -> None:
    """Keep what would happen were the book kept now, and the rows that cannot be read as a file.

    Raises FileNotFoundError when its table is gone.
    """
    table = queries.table_of(book)
    told = KINDS[book.kind].told(book, table, say)
    write_unread(book, table, told)
    book.found = {
        "stand": stand_of(book.club),
        "rows": len(table.rows),
        "new": len(told.new),
        "there": told.there,
        "passed": len(told.passed),
        "passed_rows": sorted(told.passed)[:FAULTS_SHOWN],
        "faults": len({fault.row for fault in told.faults}),
        "first_faults": [list(fault) for fault in sorted(told.faults)[:FAULTS_SHOWN]],
        "sample": [reads(one) for one in told.new[:SAMPLED]],
    }
    Book.objects.filter(pk=book.pk).update(found=book.found)


def reads(one) -> str:
    """What is new in one line."""
    if isinstance(one, list):
        row, label, lines = one[0]
        return ", ".join(
            [row.name, *(f"{part} {percent.normalize():f} %" for part, percent in lines.items())]
        )
    if not isinstance(one, tuple):
        return f"{one.on:%d/%m/%Y}, {one.green}: {one.kind.words}, {', '.join(one.in_words)}"
    said, _ = one
    facts = [field.short(said.details[field.key]) for field in said.work.fields if field.key in said.details]
    products = [
        f"{amount / 1000:g} {label.get_unit_display()} of {label.product}" for label, amount in said.products
    ]
    where = ", ".join(green.name for green in said.greens)
    return ", ".join([f"{said.on:%d/%m/%Y}, {where}: {said.work.words}", *products, *facts])


def write_unread(book: Book, table: BookTable, told: Told) -> None:
    """The rows that cannot be kept, with the reason, under the book's own headers."""
    why: dict[int, list[str]] = {}
    for row, _, sentence in sorted(told.faults):
        why.setdefault(row, []).append(sentence)
    for row, sentence in told.passed:
        why.setdefault(row, []).append(f"Passed over: {sentence}.")
    out = StringIO()
    writer = csv.writer(out)
    writer.writerow(["Row", "Why", *map(guarded, table.headers)])
    writer.writerows(
        [number, " ".join(why[number]), *map(guarded, cells)] for number, cells in table.rows if number in why
    )
    queries.place_of_unread(book).write_bytes(out.getvalue().encode("utf-8-sig"))


def stand_of(club: Club) -> list[int]:
    """Another one after every change of the record: a line of the trail is written with it."""
    return [club.trail.order_by().aggregate(last=Max("pk"))["last"] or 0]


def is_fresh(book: Book) -> bool:
    """Whether the last look saw the record as it stands; keeping judges anew in any case."""
    return book.found.get("stand") == stand_of(book.club)


def look_at_once_or_queue(*, book: Book, by: Membership) -> None:
    """A short book is looked at here and now, a long one by the worker. Raises FileNotFoundError."""
    if book.row_count <= AT_ONCE_ROWS:
        look(book)
        return
    args = {"book": book.pk, "looks": True}
    book.job = jobs.queue_job(club=book.club, by=by, kind=LOOK, args=args, unique_key=f"look {book.pk}")
    book.save(update_fields=["job"])


def look_by_job(job: Job) -> dict:
    """The look that a job was queued for. Raises NotDone when the file is gone."""
    book = Book.objects.select_related("club", "logged_by").get(pk=job.args["book"])
    try:
        look(book, lambda done, of: jobs.say_how_far(job, done, of))
    except FileNotFoundError:
        raise jobs.NotDone(GONE) from None
    return {"new": book.found["new"]}


# ---- keeping ----------------------------------------------------------------------------------------


@transaction.atomic
def queue_import(*, book: Book, by: Membership) -> Job:
    """Have the worker keep what the last look found, leaving out the rows that it could not read."""
    book.left_out, book.logged_by = book.found["faults"], by
    args = {"book": book.pk}
    book.job = jobs.queue_job(club=book.club, by=by, kind=IMPORT, args=args, unique_key=f"book {book.pk}")
    book.save(update_fields=["left_out", "logged_by", "job"])
    return book.job


def import_book(job: Job) -> dict:
    """Keep the job's book, all or none; done twice it is done once.

    Raises
    ------
    NotDone
        When its file is gone, or the record changed so that more rows cannot be kept than was agreed.
    """
    book = Book.objects.select_related("club", "logged_by").get(pk=job.args["book"])
    if book.imported_at:
        return book.result
    try:
        table = queries.table_of(book)
    except FileNotFoundError:
        raise jobs.NotDone(GONE) from None
    for _ in range(MOST_TRIES):
        done = judge_and_keep(job, book, table)
        if done is not None:
            return done
    raise jobs.NotDone("The record changes too fast for this book; try again when it is quieter.")


def judge_and_keep(job: Job, book: Book, table: BookTable) -> dict | None:
    """Judge outside the transaction, so that nobody waits; None when the record changed meanwhile."""
    stand = stand_of(book.club)
    told = KINDS[book.kind].told(book, table, lambda done, of: jobs.say_how_far(job, done, 2 * of))
    faults = len({fault.row for fault in told.faults})
    if faults > book.left_out:
        Book.objects.filter(pk=book.pk).update(found={})
        raise jobs.NotDone(MORE_FAULTS.format(counted(faults, "rows")))
    jobs.say_how_far(job, 1, 2)
    done = keep(job, book, table, told, stand)
    if done is not None:
        jobs.say_how_far(job, 1, 1)
    return done


@transaction.atomic
def keep(job: Job, book: Book, table: BookTable, told: Told, stand: list[int]) -> dict | None:
    """Write all of it at once and one line in the record of changes; None when that is not as judged."""
    Club.objects.select_for_update().get(pk=book.club_id)
    mine = Book.objects.select_for_update().select_related("club", "logged_by").get(pk=book.pk)
    if mine.imported_at:
        return mine.result
    if stand_of(mine.club) != stand:
        return None
    more = KINDS[mine.kind].keep(mine, told)
    mine.imported_at = timezone.now()
    mine.result = counts_of(told) | more
    mine.save(update_fields=["imported_at", "result"])
    write_unread(mine, table, told)
    deed = f"Brought in {mine.get_kind_display().lower()} from {mine.name}"
    trail.write(club=mine.club, by=job.by, deed=deed, row=mine, changes=trail.as_created(mine.result))
    forget_files(mine, queries.place_of(mine))
    return mine.result


def counts_of(told: Told) -> dict[str, int]:
    return {
        "new": len(told.new),
        "there": told.there,
        "passed": len(told.passed),
        "left_out": len({fault.row for fault in told.faults}),
    }
