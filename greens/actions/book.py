"""A club's own books: laid by, and how they are read. What comes of it is :mod:`greens.actions.book_keep`."""

import secrets
from collections.abc import Mapping
from datetime import timedelta

from django.db import transaction
from django.utils import timezone

from greens.models import Book, BookHabit, Club, Membership
from greens.queries import book as queries
from greens.validators.book_file import book_table, laid_by
from growin.agronomy.book_columns import recognised

LEFT_BEHIND_AFTER = timedelta(days=7)


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
    queries.place_of(book).write_bytes(laid_by(table).encode())
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
    for place in places:
        transaction.on_commit(place.unlink)


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
