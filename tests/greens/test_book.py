"""A club's own books: read as clubs keep them, looked at, kept as one piece, taken back as one piece."""

from datetime import date, datetime
from decimal import Decimal

import pytest

from greens.actions import book as books
from greens.actions import book_keep as keeping
from greens.actions import book_undo
from greens.actions import job as jobs
from greens.actions.diary import correct_work
from greens.choices import JobState
from greens.models import Book, Entry, EntryProduct, TrailLine
from greens.queries import book as queries
from greens.queries import diary
from greens.queries.book_words import Words
from greens.validators.upload import NotKept
from tests.books import csv_book, found, whys, workbook
from tests.cast import laid_green
from tests.entries import brought, label, logged

pytestmark = pytest.mark.django_db
PLAIN = "Date,Green,Work,Height"


def club_sheet():
    """A diary as a real club keeps it: titles, headings over headers, blanks, notes, totals."""
    return workbook(
        (None, "Greens diary 2026", None, None, None, None, None, None),
        (),
        (None, "When", None, "Material", None, None, "Other", None),
        (None, "Date", "Green", "Name", "Amount", None, "Job", "Remarks"),
        (None, datetime(2026, 3, 2), "7th", None, None, None, "mowing", "first cut"),
        (),
        (None, "March", None, None, None, None, None, None),
        (None, 46_094, "Seventh", "spring feed", "22,5 kg", None, "Fed", None),
        (None, "16/03/2026", "No 7", "Dune sand", "0.5 kg/m²", None, "top dressing", None),
        (None, "17/03/2026", "No 7", None, "8 mm", None, "watering", None),
        (None, "sometime", "No 7", None, None, None, "rolled", None),
        (None, "18/03/2026", "Seventh", "Spring feed", "2 bags", None, "Fed", None),
        (None, "Total", None, None, "247.5 kg", None, None, None),
        (None, "Feed bought in April", None, None, None, None, None, None),
        merged="B3:C3",
    )


class TestADiaryAsAClubKeepsIt:
    @pytest.fixture
    def book(self, cast, take_in):
        label(cast, "Spring feed", lines={"N_total": 12}, from_day=date(2026, 1, 1))
        label(cast, "Dune sand", kind="sand", bulk_density_t_m3=Decimal("1.6"), from_day=date(2026, 1, 1))
        return take_in(club_sheet())

    def test_its_columns_are_found_below_titles_and_headings(self, book):
        assert book.headers == ["Date", "Green", "Name", "Amount", "Job", "Remarks"]
        assert set(book.columns.values()) == {"on", "greens", "amount", "kind", "note"}

    @pytest.fixture
    def said(self, book):
        columns = queries.keys_of(book) | {2: "product"}
        books.set_columns(book=book, columns=columns, said_once={}, fills_down=False)
        return book

    def test_nothing_is_unknown_of_its_words(self, said):
        assert Words(said).unknown(queries.table_of(said)) == {}

    def test_every_row_is_accounted_for(self, said):
        assert found(said) == {"new": 3, "there": 0, "passed": 3, "faults": 3}
        assert [row for row, _ in said.found["passed_rows"]] == [7, 13, 14]

    def test_what_cannot_be_read_says_row_value_and_what_would_be_right(self, said):
        assert whys(said) == [
            (5, "Height of cut on the bench is missing."),
            (11, "Day: “sometime” is not possible; it should be a day such as 16/04/2026 or 2026-04-16."),
            (
                12,
                "Amount: “2 bags” is not possible; it should be in kg, g, t, l, ml, g/m², kg/m², kg/ha, l/ha "
                "or mm of sand.",
            ),
        ]

    def test_it_is_kept_as_whole_grams_on_the_days_it_says(self, said, keep):
        keep(said)
        amounts = EntryProduct.objects.order_by("entry__on").values_list("entry__on", "amount")
        assert list(amounts) == [(date(2026, 3, 13), 22_500), (date(2026, 3, 16), 225_000)]
        assert brought(diary.with_lines(Entry.objects.filter(kind="feed")).get()) == {"N": 6_000}
        assert Entry.objects.get(kind="water").details == {"depth_mm": 8}

    def test_what_was_not_kept_can_be_taken_away_as_csv(self, said, keep):
        keep(said)
        lines = queries.unread(said).decode("utf-8-sig").splitlines()
        assert lines[0] == "Row,Why,Date,Green,Name,Amount,Job,Remarks"
        assert [line.split(",")[0] for line in lines[1:]] == ["5", "7", "11", "12", "13", "14"]

    def test_the_next_one_like_it_is_read_so_without_a_word(self, said, cast, take_in):
        again = take_in(club_sheet())
        assert again.columns == said.columns
        theirs = books.take_in(club=cast.outsider.club, by=cast.outsider, kind="diary", file=club_sheet())
        assert "product" not in theirs.columns.values()


def test_a_day_that_could_be_two_is_asked_and_read_as_was_said(take_in, keep):
    book = take_in(csv_book(PLAIN, "04/03/2026,Seventh,Cut,8"))
    assert queries.order_of(book, queries.table_of(book)) is None
    books.settle(book=book, order="mdy")
    keep(book)
    assert Entry.objects.get().on == date(2026, 4, 3)


def test_a_comma_that_could_be_two_things_is_asked(cast, take_in, keep):
    label(cast, from_day=date(2026, 1, 1), lines={"N_total": 1})
    book = take_in(csv_book("Date;Green;Work;Product;Amount", "16/03/2026;Seventh;Fed;Spring feed;1,250 kg"))
    assert queries.comma_of(book, queries.table_of(book)) is None
    books.settle(book=book, comma=",")
    keep(book)
    assert EntryProduct.objects.get().amount == 1_250


def test_unknown_words_are_asked_once_and_remembered(cast, take_in, keep):
    lines = (PLAIN, "16/03/2026,Old one,Clipped,8", "17/03/2026,Nursery,Cut,8")
    book = take_in(csv_book(*lines))
    table = queries.table_of(book)
    assert Words(book).unknown(table) == {"greens": ["Nursery", "Old one"], "kind": ["Clipped"]}
    values = {"greens": {"old 1": str(cast.green.pk), "nursery": "-"}, "kind": {"clipped": "cut"}}
    books.set_values(book=book, values=values)
    assert found(book) == {"new": 1, "there": 0, "passed": 1, "faults": 0}
    again = take_in(csv_book(*lines))
    assert Words(again).unknown(table) == {}


def test_a_book_of_one_work_on_one_green_says_both_once(cast, take_in, keep):
    book = take_in(csv_book("Day,HOC (in)", "16/03/2026,0.25", "17/03/2026,8 mm", ",7 mm"))
    once = {"kind": "cut", "greens": str(cast.green.pk)}
    books.set_columns(book=book, columns=queries.keys_of(book), said_once=once, fills_down=True)
    keep(book)
    heights = Entry.objects.order_by("on", "pk").values_list("on", "details__height_mm")
    assert list(heights) == [(date(2026, 3, 16), 6.35), (date(2026, 3, 17), 8), (date(2026, 3, 17), 7)]


def test_all_greens_and_several_greens_are_one_entry(cast, take_in, keep):
    keep(take_in(csv_book(PLAIN, "16/03/2026,all greens,Cut,8")))
    assert [line.green for line in Entry.objects.get().lines.all()] == [cast.green]


def test_a_list_in_every_cell_does_not_pass_for_columns(cast, take_in, keep):
    laid_green(cast.club, "Fourth")
    rows = [f'{day}/03/2026,"Fourth; Seventh",Cut,8' for day in (16, 17, 18)]
    keep(take_in(csv_book(PLAIN, *rows)))
    assert [entry.lines.count() for entry in Entry.objects.all()] == [2, 2, 2]


def test_one_of_two_greens_that_has_it_already_is_said(cast, take_in):
    laid_green(cast.club, "Fourth")
    logged(cast, "cut", on=date(2026, 3, 16))
    book = take_in(csv_book(PLAIN, "16/03/2026,4 & 7,Cut,8"))
    assert whys(book) == [
        (2, "Greens: the record has this for Seventh already; give the others a row of their own.")
    ]


def test_what_is_there_already_is_not_doubled(cast, take_in, keep):
    logged(cast, "cut", on=date(2026, 3, 16))
    book = take_in(csv_book(PLAIN, *["16/03/2026,7,Cut,8"] * 2, "17/03/2026,7,Cut,8"))
    assert found(book) == {"new": 2, "there": 1, "passed": 0, "faults": 0}
    keep(book)
    assert Entry.objects.count() == 3


def test_a_product_of_another_amount_is_another_entry(cast, take_in):
    fed = label(cast, from_day=date(2026, 1, 1), lines={"N_total": 1})
    logged(cast, "feed", on=date(2026, 3, 16), products=[(fed, 22_500)])
    head = "Date,Green,Work,Product,Amount"
    rows = [f"16/03/2026,7,Fed,Spring feed,{amount}" for amount in ("22.5 kg", "50 g/m²", "22.6 kg")]
    assert found(take_in(csv_book(head, *rows))) == {"new": 2, "there": 1, "passed": 0, "faults": 0}


def test_a_detail_of_another_work_goes_into_the_note(take_in, keep):
    keep(take_in(csv_book("Date,Green,Work,Height,Note", "16/03/2026,7,Rolled,8 mm,twice")))
    assert Entry.objects.get().note == "twice; Height of cut on the bench, mm: 8 mm"


def test_an_import_is_one_line_in_the_record_of_changes(cast, take_in, keep):
    rows = [f"{day}/03/2026,7,Cut,8" for day in range(1, 29)]
    book = keep(take_in(csv_book(PLAIN, *rows)))
    line = TrailLine.objects.get(noun="book")
    assert (line.deed, line.by, line.noun_pk) == (
        "Brought in diary of work from diary.csv",
        cast.head,
        book.pk,
    )
    assert line.changes["new"] == [None, 28]


def test_a_defect_is_noted_in_the_record_too(cast, take_in, keep):
    keep(take_in(csv_book("Date,Green,Work,What", "16/03/2026,7,Defect for the contractor,joint open")))
    assert [row.what for row in cast.establishment.defects.all()] == ["joint open"]


def test_it_is_kept_whole_or_not_at_all(cast, take_in, keep, monkeypatch):
    book = take_in(csv_book(PLAIN, "16/03/2026,7,Cut,8", "17/03/2026,7,Cut,8"))
    keeping.look(book)
    cast.establishment.established_on = date(2026, 3, 17)
    cast.establishment.save()
    job = keeping.queue_import(book=book, by=cast.head)
    jobs.do(job.pk, keeping.import_book)
    job.refresh_from_db()
    assert (job.state, Entry.objects.count()) == (JobState.FAILED, 0)
    assert job.error.startswith("The record changed since you looked: 1 row cannot be kept now")


def test_a_job_done_twice_keeps_it_once(take_in, keep):
    book = keep(take_in(csv_book(PLAIN, "16/03/2026,7,Cut,8")))
    assert keeping.import_book(book.job) == book.result
    assert Entry.objects.count() == 1


class TestTakingItBack:
    @pytest.fixture
    def book(self, take_in, keep):
        return keep(take_in(csv_book(PLAIN, *[f"{day}/03/2026,7,Cut,8" for day in (16, 17, 18)])))

    def test_exactly_what_it_brought_is_taken_back(self, cast, book):
        logged(cast, "cut", on=date(2026, 3, 19))
        assert book_undo.undo(book=book, by=cast.head) == {"taken": 3, "stays": 0}
        assert [entry.on.day for entry in diary.of(cast.club)] == [19]

    def test_what_was_corrected_since_stays_and_is_counted(self, cast, book):
        entry = Entry.objects.get(on=date(2026, 3, 17))
        correct_work(entry=entry, by=cast.head, details={"height_mm": 7})
        assert book_undo.undo(book=book, by=cast.head) == {"taken": 2, "stays": 1}
        assert [entry.on.day for entry in diary.of(cast.club)] == [17]

    def test_it_is_taken_back_once(self, cast, book):
        book_undo.undo(book=book, by=cast.head)
        assert book_undo.undo(book=book, by=cast.head) == {"taken": 0, "stays": 0}

    def test_it_may_be_brought_in_again_afterwards(self, cast, book, take_in):
        book_undo.undo(book=book, by=cast.head)
        again = take_in(csv_book(PLAIN, "16/03/2026,7,Cut,8"))
        assert found(again)["new"] == 1


BAD = {
    "headers alone": (csv_book(PLAIN), "has headers and no row below"),
    "nothing": (csv_book("", name="none.csv"), "none.csv is empty"),
    "a sheet that is not there": (
        workbook(("Date", "Green"), ("1", "2")),
        "has no sheet “2020”; it has Sheet",
    ),
}


@pytest.mark.parametrize(("file", "sentence"), BAD.values(), ids=BAD)
def test_a_file_that_is_no_book_is_refused_in_a_sentence(take_in, file, sentence):
    file.seek(0)
    with pytest.raises(NotKept, match=sentence):
        take_in(file, sheet="2020" if file.name.endswith("xlsx") else "")
    assert Book.objects.count() == 0
