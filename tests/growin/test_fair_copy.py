"""Everything of a club taken away: nothing missing, nothing that runs, the same when it comes in again."""

import csv
import zipfile
from datetime import date, time
from io import BytesIO, StringIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from openpyxl import load_workbook

from greens.actions import book as books
from greens.actions import book_keep as keeping
from greens.actions import job as jobs
from greens.actions.readings import record_readings
from greens.actions.stock import note_stock
from greens.models import Book, Entry, Membership, ReadingSet
from growin.agronomy.measures import MEASURES
from growin.exports import fair_copy as exports
from growin.queries import fair_copy as queries
from tests.cast import club_with_head, laid_green
from tests.entries import at, label, logged

pytestmark = pytest.mark.django_db
BACK_AGAIN = ("products", "readings", "diary")


def tables(club) -> dict[str, bytes]:
    """The CSVs of a fair copy by name."""
    content = b"".join(exports.as_zip(queries.parts(club)))
    with zipfile.ZipFile(BytesIO(content)) as bundle:
        return {name.removesuffix(".csv"): bundle.read(name) for name in bundle.namelist()}


def rows(club, name: str) -> list[dict]:
    return list(csv.DictReader(StringIO(tables(club)[name].decode(), newline="")))


def workbook(club):
    return load_workbook(BytesIO(b"".join(exports.as_workbook(queries.parts(club)))), read_only=True)


READ = {
    "rooting_depth": ([45, 52, 60.5], {"corer_diameter_mm": 19}),
    "hand_pull": ([True, False, True], {}),
    "cover": ([{"hits": 24, "points": 25}, {"hits": 20, "points": 25}], {"points_per_frame": 25}),
    "green_speed": ([{"first": [2.1, 2.25], "second": [2, 2.2]}], {}),
    "hardness": ([88], {"hammer_kg": 0.5, "drop_number": 1}),
    "root_colour": ([4, 5], {}),
}


@pytest.fixture
def full(cast):
    """A club whose record is awkward: tanks, several greens, quotation marks, formulas, lines in notes."""
    second = laid_green(cast.club, "Long; Meadow", area_m2=380).green
    feed = label(cast, "=SUM(A1)", lines={"N_total": 12, "P2O5": 5.5})
    iron = label(cast, "Iron, “liquid”", kind="liquid", unit="ml", density_kg_l="1.25", lines={"Fe": 6})
    sand = label(cast, "Dune sand", kind="sand", bulk_density_t_m3="1.6")
    both = [cast.green, second]
    logged(cast, "feed", greens=both, products=[(feed, 22_501)], details={"form": "granular"}, minutes=45)
    logged(cast, "dressing", products=[(sand, 225_000)], note="-2 mm, @ the front\n+ brushed")
    logged(
        cast, "feed", products=[(feed, 9_000), (iron, 4_500)], at_time=time(8, 5), note='a "tank", two; three'
    )
    logged(cast, "settle", details={"change_mm": -4.5, "place": "'=front", "lifted": True})
    logged(cast, "cut", on=date(2026, 3, 2), details={"height_mm": 9.25, "boxes": "off", "scalped": False})
    logged(cast, "watch", details={"what": "microdochium", "severity": "trace", "share_percent": 2})
    logged(
        cast, "spray", details={"purpose": "growth", "target": "=1+1", "operator": "C Reed", "start": "06:30"}
    )
    logged(cast, "note", details={"text": "\tTab and =, in the middle"})
    logged(cast, "cut"), logged(cast, "cut")
    for measure, (values, protocol) in READ.items():
        of = {"green": cast.green, "by": cast.staff, "taken_by": cast.by_name, "on": cast.today}
        note = "=after rain" if measure == "hardness" else ""
        record_readings(**of, measure=measure, values=values, protocol=protocol, note=note)
    note_stock(product=sand.product, by=cast.head, kind="counted", on=cast.today, amount=2_500_000)
    return cast


def empty_club(cast):
    """The same greens and people, and nothing in the record."""
    head = club_with_head("Empty Links", "Ursel Moor")
    for name in ("Callum Reed", "Young Tam"):
        Membership.objects.create(club=head.club, name=name, role="staff")
    laid_green(head.club)
    laid_green(head.club, "Long; Meadow", area_m2=380)
    return head


def brought_in(by: Membership, kind: str, name: str, content: bytes) -> Book:
    book = books.take_in(club=by.club, by=by, kind=kind, file=SimpleUploadedFile(name, content))
    keeping.look(book)
    jobs.do(keeping.queue_import(book=book, by=by).pk, keeping.import_book)
    book.refresh_from_db()
    assert book.job.error == ""
    return book


def test_what_goes_out_comes_in_again_to_the_byte(full):
    before = tables(full.club)
    other = empty_club(full)
    for kind in BACK_AGAIN:
        book = brought_in(other, kind, f"{kind}.csv", before[kind])
        assert (book.result["left_out"], book.result["passed"]) == (0, 0), book.found["first_faults"]
    after = tables(other.club)
    assert {kind: after[kind] for kind in BACK_AGAIN} == {kind: before[kind] for kind in BACK_AGAIN}


def test_it_comes_in_again_from_the_workbook_too(full):
    before, content = tables(full.club), b"".join(exports.as_workbook(queries.parts(full.club)))
    other = empty_club(full)
    for kind in BACK_AGAIN:
        brought_in(other, kind, "copy.xlsx", content)
    after = tables(other.club)
    assert {kind: after[kind] for kind in BACK_AGAIN} == {kind: before[kind] for kind in BACK_AGAIN}


def test_what_is_there_already_comes_in_no_second_time(full):
    before = tables(full.club)
    for kind in BACK_AGAIN:
        book = books.take_in(
            club=full.club, by=full.head, kind=kind, file=SimpleUploadedFile("a.csv", before[kind])
        )
        keeping.look(book)
        assert (book.found["new"], book.found["faults"]) == (0, 0), book.found["first_faults"]
    assert tables(full.club) == before


def test_every_measure_has_its_way_out_and_in(cast):
    """One value of each measure, as it may be."""
    hits, rolls = {"hits": 3, "points": 3}, {"first": [3], "second": [3]}
    values = {"number": 3, "yesno": True, "hits": hits, "rolls": rolls}
    of = {"green": cast.green, "by": cast.head, "taken_by": cast.head, "on": cast.today}
    for measure in MEASURES.values():
        record_readings(**of, measure=measure.key, values=[values[measure.shape]])
    before = tables(cast.club)["readings"]
    ReadingSet.objects.all().delete()
    brought_in(cast.head, "readings", "readings.csv", before)
    assert (ReadingSet.objects.count(), tables(cast.club)["readings"]) == (len(MEASURES), before)


def test_a_tank_stands_in_two_rows_of_one_entry(full):
    tank = [row for row in rows(full.club, "diary") if row["Time"] == "08:05"]
    assert [(row["Entry"], row["Amount"], row["Unit"], row["N, mg/m²"]) for row in tank] == [
        (tank[0]["Entry"], "9", "kg", "2400"),
        (tank[0]["Entry"], "4.5", "l", ""),
    ]


def test_no_cell_of_a_csv_begins_as_a_formula(full):
    cells = [cell for name in tables(full.club) for row in rows(full.club, name) for cell in row.values()]
    assert [cell for cell in cells if cell[:1] in set("=+@\t\r")] == []
    assert "'=SUM(A1)" in cells
    assert [cell for cell in cells if cell.startswith("-")] == ["-4.5"]


def test_figures_stay_figures_and_texts_texts_in_the_workbook(full):
    sheet = workbook(full.club)["diary"]
    headers, *below = sheet.iter_rows(values_only=True)
    feed = dict(zip(headers, below[1], strict=False))
    assert (feed["Product"], feed["Amount"], feed["Area, m²"]) == ("=SUM(A1)", 22.501, "450; 380")
    assert feed["Day"].date() == full.today
    types = {cell.data_type for row in sheet.iter_rows() for cell in row if cell.value is not None}
    assert "f" not in types


def test_every_noun_has_its_sheet_and_its_table(full):
    names = [part.name for part in queries.parts(full.club)]
    assert workbook(full.club).sheetnames == names
    assert list(tables(full.club)) == names
    assert {"diary", "readings", "products", "stock", "weather", "greens", "rebuilds"} < set(names)
    assert {"decisions", "settings", "changes"} < set(names)


def test_the_same_record_gives_the_same_bytes(full):
    one, two = (b"".join(exports.as_workbook(queries.parts(full.club))) for _ in range(2))
    assert one == two


def test_nobodys_address_is_in_it(full):
    addresses = [member.person.email for member in full.club.memberships.exclude(person=None)]
    everything = b"".join(tables(full.club).values()).decode()
    assert [one for one in addresses if one in everything] == []
    assert "@example" not in everything


def test_what_was_taken_back_and_another_clubs_work_are_not_in_it(full):
    taken = Entry.objects.filter(kind="cut").first()
    Entry.objects.filter(pk=taken.pk).update(taken_back_at="2026-04-16T10:00Z")
    cuts = [row for row in rows(full.club, "diary") if row["Work"] == "Cut"]
    assert len(cuts) == 2
    assert rows(full.outsider.club, "diary") == []


@pytest.mark.parametrize("role", ["head", "staff", "committee", "adviser"])
def test_everybody_who_reads_may_take_it_away(full, as_, role):
    client = as_(role)
    page = client.get(at(full, "fair_copy"))
    assert b"fair copy of everything" in page.content
    answer = client.get(at(full, "fair_copy_zip"))
    assert answer.headers["Content-Disposition"].endswith('marram-links-2026-04-16.zip"')
    assert zipfile.ZipFile(BytesIO(answer.getvalue())).testzip() is None
