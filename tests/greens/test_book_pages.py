"""The pages of a club's own books, walked from the file to the record and back."""

from datetime import date

import pytest

from greens.actions import book_keep as keeping
from greens.actions import job as jobs
from greens.models import Book, Entry, Job
from tests.books import csv_book
from tests.entries import at, logged

pytestmark = pytest.mark.django_db
ROWS = (
    "Date,Place,Work,Height",
    "04/03/2026,7th,Clipped,8",
    "05/03/2026,Nursery,Clipped,8",
    "06/03/2026,7th,Clipped,x",
)


@pytest.fixture
def head(as_):
    return as_("head")


def words(answer) -> str:
    return " ".join(answer.content.decode().split())


def uploaded(cast, head) -> Book:
    head.post(at(cast, "books"), {"kind": "diary", "file": csv_book(*ROWS)})
    return Book.objects.get()


def test_from_the_file_to_the_record_and_back(cast, head):
    book = uploaded(cast, head)
    check = at(cast, "book_check", book.pk)
    columns = {"column_0": "on", "column_1": "greens", "column_2": "kind", "column_3": "detail.height_mm"}
    assert head.post(at(cast, "book_columns", book.pk), columns).headers["Location"] == check

    assert "could be read in two ways" in words(head.get(check))
    head.post(check, {"order": "dmy"})
    page = words(head.get(check))
    assert "“Clipped”" in page and "“Nursery”" in page and "“7th”" not in page
    head.post(check, {"greens_0": "-", "kind_0": "cut"})

    page = words(head.get(check))
    assert "3 rows read. Nothing is kept yet" in page
    assert "<strong>Row 4:</strong> Height of cut on the bench, mm: “x” is not possible" in page
    assert "Tick this" in words(head.post(check, {"typed_in": "metric"}))
    assert head.post(check, {"leaves_out": "on"}).headers["Location"] == at(cast, "book", book.pk)
    assert "The book is being kept" in words(head.get(at(cast, "book", book.pk)))

    jobs.do(Job.objects.get().pk, keeping.import_book)
    assert "1 entry new" in words(head.get(at(cast, "book", book.pk)))
    assert [entry.on.month for entry in Entry.objects.all()] == [3]
    unread = head.get(at(cast, "book_unread", book.pk)).content.decode("utf-8-sig").splitlines()
    assert [line.split(",")[0] for line in unread] == ["Row", "3", "4"]

    assert "1 entry will be taken back" in words(head.get(at(cast, "undo_book", book.pk)))
    head.post(at(cast, "undo_book", book.pk))
    assert "It was taken back" in words(head.get(at(cast, "book", book.pk)))
    assert Entry.objects.filter(taken_back_at=None).count() == 0


def test_a_long_book_is_looked_at_by_the_worker(cast, head, monkeypatch):
    monkeypatch.setattr(keeping, "AT_ONCE_ROWS", 1)
    head.post(
        at(cast, "books"),
        {"kind": "diary", "file": csv_book("Date,Green,Work,Height", *["14/03/2026,7,Cut,8"] * 3)},
    )
    check = at(cast, "book_check", Book.objects.get().pk)
    assert "The rows are being read: <span data-job-words>waiting for its turn" in words(head.get(check))
    job = Job.objects.get()
    jobs.do(job.pk, keeping.look_by_job)
    assert "New entries</dt><dd>3</dd>" in words(head.get(check))
    job.refresh_from_db()
    assert job.result == {"new": 3}


def test_a_look_says_when_the_record_changed_since(cast, head):
    file = csv_book("Date,Green,Work,Height", "14/03/2026,7,Cut,8")
    head.post(at(cast, "books"), {"kind": "diary", "file": file})
    check = at(cast, "book_check", Book.objects.get().pk)
    assert "The record changed since" not in words(head.get(check))
    logged(cast, "cut", on=date(2026, 3, 14))
    assert "The record changed since" in words(head.get(check))
    assert "In the record already</dt><dd>1, not kept twice" in words(head.get(f"{check}?again=1"))


def test_a_column_is_wanted_for_the_day(cast, head):
    book = uploaded(cast, head)
    page = words(head.post(at(cast, "book_columns", book.pk), {"column_2": "kind"}))
    assert "Say which column holds this, or say it for all rows: day, greens." in page


def test_two_columns_cannot_be_one_thing(cast, head):
    book = uploaded(cast, head)
    page = words(head.post(at(cast, "book_columns", book.pk), {"column_0": "on", "column_1": "on"}))
    assert "“Date” holds this already." in page


def test_a_file_that_is_gone_says_so(cast, head):
    book = uploaded(cast, head)
    keeping.queries.place_of(book).unlink()
    Book.objects.update(columns={"0": "on", "1": "greens", "2": "kind"})
    assert "upload it again" in words(head.get(at(cast, "book_check", book.pk)))


@pytest.mark.parametrize("role", ["staff", "committee", "adviser"])
def test_only_the_head_greenkeeper_brings_books_in(cast, as_, role):
    assert as_(role).get(at(cast, "books")).status_code == 403


def test_a_green_of_another_club_is_a_word_that_nobody_knows(cast, head):
    head.post(
        at(cast, "books"),
        {"kind": "diary", "file": csv_book("Date,Green,Work,Height", "16/03/2026,Third,Cut,8")},
    )
    book = Book.objects.get()
    check = at(cast, "book_check", book.pk)
    assert "“Third”" in words(head.get(check))
    refused = head.post(check, {"greens_0": cast.other_green.pk})
    assert "is not one of the available choices" in words(refused)
    assert (Book.objects.get().values, Entry.objects.exists()) == (book.values, False)
