"""What tests of a club's own books share: to take one in, and to have it kept."""

import pytest

from greens.actions import book as books
from greens.actions import book_keep as keeping
from greens.actions import job as jobs
from greens.models import Book


@pytest.fixture
def take_in(cast):
    return lambda file, kind="diary", **more: books.take_in(
        club=cast.club, by=cast.head, kind=kind, file=file, **more
    )


@pytest.fixture
def keep(cast):
    """Have a book kept, as the worker does."""

    def kept(book: Book) -> Book:
        keeping.look(book)
        jobs.do(keeping.queue_import(book=book, by=cast.head).pk, keeping.import_book)
        book.refresh_from_db()
        return book

    return kept
