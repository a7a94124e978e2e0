"""Books for tests, as clubs keep them."""

import csv
from datetime import date, timedelta
from io import BytesIO, StringIO
from random import Random

from django.core.files.uploadedfile import SimpleUploadedFile
from openpyxl import Workbook

from greens.actions import book_keep as keeping
from greens.models import Book, Club, Label, LabelLine, Membership, Product
from tests.cast import laid_green

NUMBERS = (
    "First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth", "Ninth", "Tenth", "Eleventh",
    "Twelfth", "Thirteenth", "Fourteenth", "Fifteenth", "Sixteenth", "Seventeenth", "Eighteenth",
)  # fmt: skip
HEADERS = ("Date", "Hole", "Job", "Product", "Amount", "Height of cut (mm)", "Depth (mm)", "By", "Remarks")
FEEDS = {"Spring 12-5-9": ("N_total", "12"), "Autumn 4-0-8": ("N_total", "4"), "Iron": ("Fe", "20")}
SAND = "Dune sand"


def csv_book(*lines: str, name: str = "diary.csv", encoding: str = "utf-8") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, "\n".join(lines).encode(encoding), content_type="text/csv")


def workbook(*rows: tuple, name: str = "diary.xlsx", merged: str = "") -> SimpleUploadedFile:
    book, out = Workbook(), BytesIO()
    for row in rows:
        book.active.append(row)
    if merged:
        book.active.merge_cells(merged)
    book.save(out)
    return SimpleUploadedFile(name, out.getvalue())


def eighteen_greens(club: Club) -> None:
    """Greens that the club has not yet, each laid long ago."""
    there = set(club.greens.values_list("name", flat=True))
    for number, name in enumerate(NUMBERS):
        if name not in there:
            laid_green(
                club,
                name,
                area_m2=400 + 7 * number,
                works_started_on=date(2005, 8, 1),
                established_on=date(2005, 9, 1),
            )


def shed(by: Membership) -> None:
    """Three feeds and a sand with their labels."""
    for name, (part, percent) in FEEDS.items():
        product = Product.objects.create(club=by.club, kind="granular", name=name)
        label = Label.objects.create(product=product, revision=1, from_day=date(2005, 1, 1), by=by)
        LabelLine.objects.create(label=label, part=part, percent=percent)
    sand = Product.objects.create(club=by.club, kind="sand", name=SAND)
    Label.objects.create(product=sand, revision=1, from_day=date(2005, 1, 1), by=by, bulk_density_t_m3="1.6")


def work(draw: Random) -> tuple[str, str, str, str, str]:
    """Job, product, amount, height and depth of one row."""
    turn = draw.random()
    if turn < 0.60:
        return "Cut", "", "", f"{draw.choice((4, 4.5, 5, 5.5, 6))}", ""
    if turn < 0.70:
        return "Rolled", "", "", "", ""
    if turn < 0.80:
        return "Fed", draw.choice(list(FEEDS)), f"{draw.choice((5, 10, 12.5, 15, 20))} g/m²", "", ""
    if turn < 0.85:
        return "Topdressed", SAND, f"{draw.choice((0.25, 0.5, 0.8))} kg/m²", "", ""
    return "Watered", "", "", "", f"{draw.choice((2, 3, 5, 8))}"


def season_rows(count: int, seed: int = 7, first: date = date(2006, 4, 1)) -> list[tuple]:
    """Rows of a diary: every green in turn, each day of the season once round and again."""
    draw, rows = Random(seed), []
    for number in range(count):
        on = first + timedelta(days=number // 14 % 7_300)
        note = "light rain after" if draw.random() < 0.1 else ""
        job, product, amount, height, depth = work(draw)
        green = NUMBERS[number % 18]
        rows.append((f"{on:%d/%m/%Y}", green, job, product, amount, height, depth, "", note))
    return rows


def as_csv(rows: list[tuple], headers: tuple = HEADERS, name: str = "diary.csv") -> SimpleUploadedFile:
    out = StringIO()
    csv.writer(out).writerows([headers, *rows])
    return SimpleUploadedFile(name, out.getvalue().encode(), content_type="text/csv")


def found(book: Book) -> dict:
    """How many of its rows are new, there already, passed over and at fault."""
    keeping.look(book)
    return {name: book.found[name] for name in ("new", "there", "passed", "faults")}


def whys(book: Book) -> list[tuple[int, str]]:
    """The row and the sentence of each of its first faults."""
    keeping.look(book)
    return [(row, sentence) for row, _, sentence in book.found["first_faults"]]
