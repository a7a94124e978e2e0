"""A club's own books: laid by, read as agreed, looked at, kept as one piece, undone as one piece."""

import csv
import secrets
from collections.abc import Mapping
from datetime import timedelta
from io import StringIO
from types import ModuleType

from django.db import transaction
from django.db.models import Count, Max
from django.utils import timezone

from greens.actions import book_diary, book_products, book_readings, trail
from greens.actions import job as jobs
from greens.actions.book_rows import Told
from greens.choices import BookKind
from greens.models import Book, BookHabit, Club, Job, Membership
from greens.queries import book as queries
from greens.validators.book_file import BookTable, book_table, laid_by
from greens.validators.plain_cells import guarded
from growin.agronomy.book_columns import recognised
from growin.agronomy.plain_words import counted

LOOK, IMPORT = "look into a book", "bring in a book"
LEFT_BEHIND_AFTER = timedelta(days=7)
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


@transaction.atomic
def take_in(*, club: Club, by: Membership, kind: str, file, sheet: str = "") -> Book:
    """Lay a book by; it is read as the last one like it, else as the club's habit and its headers say.

    Raises
    ------
    NotKept
        With a sentence, when there is no table in it.
    """
    table = book_table(file, kind, sheet)
    clear_left_behind(club)
    known, habit = queries.like_it(club, kind, table.headers), queries.habit(club, kind)
    book = Book.objects.create(
        club=club,
        kind=kind,
        name=file.name[-120:],
        key=secrets.token_hex(32),
        headers=table.headers,
        row_count=len(table.rows),
        columns=known.columns if known else as_recognised(kind, table.headers, habit.columns),
        said_once=known.said_once if known else {},
        order=known.order if known else "",
        comma=known.comma if known else "",
        fills_down=known.fills_down if known else False,
        values=habit.values,
        logged_by=by,
    )
    place = queries.place_of(book)
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(laid_by(table))
    return book


def as_recognised(kind: str, headers: list[str], habit: Mapping[str, str]) -> dict[str, str]:
    """Our key by their place: as somebody said of a header before, else as it is known."""
    found = {str(place): key for place, key in recognised(kind, headers).items()}
    said = {str(place): habit[header] for place, header in enumerate(headers) if header in habit}
    taken = {key for key in said.values() if key}
    both = {place: key for place, key in found.items() if key not in taken} | said
    return {place: key for place, key in both.items() if key}


def clear_left_behind(club: Club) -> None:
    """Books that nobody kept are gone after a week."""
    old = club.books.filter(imported_at=None, made_at__lt=timezone.now() - LEFT_BEHIND_AFTER)
    for book in old:
        forget_files(book, queries.place_of(book), queries.place_of_unread(book))
    old.delete()


def forget_files(book: Book, *places) -> None:
    transaction.on_commit(lambda: [place.unlink(missing_ok=True) for place in places])


# ---- how it is read ---------------------------------------------------------------------------------


@transaction.atomic
def set_columns(
    *, book: Book, columns: Mapping[int, str], said_once: Mapping[str, str], fills_down: bool
) -> None:
    """Read the columns so, now and in the club's next book of the kind; what was asked is asked again."""
    book.columns = {str(place): key for place, key in columns.items() if key}
    book.said_once, book.fills_down = dict(said_once), fills_down
    book.order = book.comma = ""
    save_unlooked(book, "columns", "said_once", "fills_down", "order", "comma")
    habit = queries.habit(book.club, book.kind)
    remember(book, columns=habit.columns | {book.headers[place]: key for place, key in columns.items()})


def settle(*, book: Book, **asked: str) -> None:
    """``order`` of day and month and ``comma`` of figures, as somebody said."""
    book.order, book.comma = asked.get("order", book.order), asked.get("comma", book.comma)
    save_unlooked(book, "order", "comma")


@transaction.atomic
def set_values(*, book: Book, values: Mapping[str, Mapping[str, str]]) -> None:
    """What words mean, by column; remembered for the club's next book of the kind."""
    book.values = together(book.values, values)
    save_unlooked(book, "values")
    remember(book, values=together(queries.habit(book.club, book.kind).values, values))


def together(before: Mapping, new: Mapping) -> dict:
    return {key: before.get(key, {}) | dict(new.get(key, {})) for key in {**before, **new}}


def remember(book: Book, **habits) -> None:
    BookHabit.objects.update_or_create(club=book.club, kind=book.kind, defaults=habits)


def save_unlooked(book: Book, *fields: str) -> None:
    """Whoever reads it otherwise has to look again."""
    book.found, book.job = {}, None
    book.save(update_fields=[*fields, "found", "job"])


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
    stands = club.trail.aggregate(count=Count("pk"), last=Max("pk"))
    return [stands["count"], stands["last"] or 0]


def is_fresh(book: Book) -> bool:
    """Whether the last look saw the record as it stands; a long one counts longer: keeping judges anew."""
    return (
        bool(book.found) and book.row_count > AT_ONCE_ROWS or book.found.get("stand") == stand_of(book.club)
    )


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
