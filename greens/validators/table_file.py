"""Tables as they arrive, CSV or XLSX: made into rows of texts, each with the number it has in the file.

A CSV is decoded and its separator found by counting; of a workbook the sheet is read that looks most
like what is wanted. What the rows mean is for those who asked for them.
"""

import csv
import zipfile
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, time
from io import BytesIO, StringIO
from itertools import islice

from django.conf import settings
from openpyxl import load_workbook

from greens.validators.plain_cells import unguarded
from greens.validators.upload import BROKEN, NotKept, is_workbook, megabytes, named

LINES_LOOKED_AT = 40
MOST_UNPACKED_BYTES = 300_000_000
SEPARATORS = (",", ";", "\t", "|")
OLD_WORKBOOK = b"\xd0\xcf\x11\xe0"
CANNOT_BE_UNPACKED = (*BROKEN, zipfile.BadZipFile, AttributeError, AssertionError)

Row = tuple[int, list[str]]


@dataclass(frozen=True)
class Wanted:
    """What a table may be: ``likeness`` says how much some cells look like its headers, ``columns`` in a
    phrase what it should have, ``who`` is asked to write it otherwise, ``shorter`` says how it gets shorter.
    """

    likeness: Callable[[list[str]], int]
    columns: str
    who: str
    shorter: str
    most_rows: int
    most_rows_of_a_workbook: int
    most_columns: int
    longest_cell: int


def filled_rows(upload, wanted: Wanted, sheet: str = "") -> list[Row]:
    """The rows of an upload that hold anything; of a workbook those of ``sheet``, where one is named.

    Raises
    ------
    NotKept
        With a sentence, when it is too big, empty, or no table at all.
    """
    if upload.size > settings.UPLOAD_LIMIT_BYTES:
        limit = megabytes(settings.UPLOAD_LIMIT_BYTES)
        raise NotKept(f"{named(upload)} has {megabytes(upload.size)}; a file may have at most {limit}.")
    upload.seek(0)
    rows = [row for row in rows_of(named(upload), upload.read(), wanted, sheet) if any(row[1])]
    if not rows:
        raise NotKept(f"{named(upload)} is empty; it should have {wanted.columns}.")
    return rows


def rows_of(name: str, content: bytes, wanted: Wanted, sheet: str = "") -> Iterable[Row]:
    if content.startswith(OLD_WORKBOOK):
        raise NotKept(f"{name} is a workbook of the old kind; save it as XLSX or CSV.")
    if content.startswith(b"PK"):
        return rows_of_workbook(name, content, wanted, sheet)
    return rows_of_text(name, content, wanted)


# ---- CSV --------------------------------------------------------------------------------------------


def rows_of_text(name: str, content: bytes, wanted: Wanted) -> list[Row]:
    text = decoded(content)
    if "\0" in text:
        raise NotKept(f"{name} is neither CSV nor XLSX; have {wanted.who} write one of these.")
    refuse_too_long(name, text.count("\n"), wanted.most_rows, wanted)
    try:
        lines = csv.reader(StringIO(text, newline=""), delimiter=separator(text))
        return [(number, as_cells(cells, wanted)) for number, cells in enumerate(lines, start=1)]
    except csv.Error:
        raise NotKept(f"{name} cannot be read as CSV; a quotation mark may be missing.") from None


def decoded(content: bytes) -> str:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return content.decode("utf-16", errors="replace")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", errors="replace")


def separator(text: str) -> str:
    """The sign that parts most of the first lines into equally many cells; the more, the better."""
    head = "\n".join(text.splitlines()[:LINES_LOOKED_AT])
    return max(SEPARATORS, key=lambda sign: agreeing(head, sign))


def agreeing(head: str, sign: str) -> tuple[int, int]:
    """How many lines agree on how many cells they have, and on how many; lines of one cell tell nothing."""
    lines = csv.reader(StringIO(head, newline=""), delimiter=sign)
    widths = Counter(len(cells) for cells in lines if any(cells) and len(cells) > 1)
    return max(((count, width) for width, count in widths.items()), default=(0, 0))


def refuse_too_long(name: str, rows: int, most: int, wanted: Wanted) -> None:
    if rows > most:
        raise NotKept(
            f"{name} has {'more than ' * (rows == most + 1)}{rows - (rows == most + 1):,} rows; at most "
            f"{most:,} are read. {wanted.shorter}"
        )


def as_cells(cells: Iterable[str], wanted: Wanted) -> list[str]:
    """Without blanks around them, and without the apostrophe that guards a text against formulas."""
    longest = wanted.longest_cell
    bare = [cell.strip()[:longest] for cell in islice(cells, wanted.most_columns)]
    return [unguarded(cell) if cell[:1] == "'" else cell for cell in bare]


# ---- XLSX -------------------------------------------------------------------------------------------


def rows_of_workbook(name: str, content: bytes, wanted: Wanted, sheet: str = "") -> list[Row]:
    if not is_workbook(content):
        raise NotKept(f"{name} is not an XLSX workbook that can be read; save it as CSV.")
    with zipfile.ZipFile(BytesIO(content)) as bundle:
        unpacked = sum(part.file_size for part in bundle.infolist())
    if unpacked > MOST_UNPACKED_BYTES:
        raise NotKept(f"{name} unpacks to {megabytes(unpacked)}, too much to be read; save the sheet as CSV.")
    most = wanted.most_rows_of_a_workbook
    try:
        book = load_workbook(BytesIO(content), read_only=True, data_only=True)
        rows = list(islice(rows_of_sheet(chosen(book, wanted, name, sheet), wanted), most + 1))
    except NotKept:
        raise
    except CANNOT_BE_UNPACKED:
        raise NotKept(f"{name} is not an XLSX workbook that can be read; save it as CSV.") from None
    refuse_too_long(name, len(rows), most, wanted)
    return rows


def chosen(book, wanted: Wanted, name: str, sheet: str):
    """The sheet of that name, or the one that looks most like what is wanted."""
    by_name = {one.title.strip().lower(): one for one in book.worksheets}
    if sheet and sheet.strip().lower() not in by_name:
        names = ", ".join(one.title for one in book.worksheets)
        raise NotKept(f"{name} has no sheet “{sheet[:40]}”; it has {names}.")
    if sheet or len(by_name) == 1:
        return by_name[sheet.strip().lower()] if sheet else book.worksheets[0]
    return max(book.worksheets, key=lambda one: likeness(one, wanted))


def likeness(sheet, wanted: Wanted) -> int:
    return max(
        (wanted.likeness(cells) for _, cells in islice(rows_of_sheet(sheet, wanted), LINES_LOOKED_AT)),
        default=0,
    )


def rows_of_sheet(sheet, wanted: Wanted) -> Iterator[Row]:
    most, longest = wanted.most_columns, wanted.longest_cell
    for number, values in enumerate(sheet.iter_rows(values_only=True), start=1):
        yield number, [AS_TEXT.get(value.__class__, as_text)(value)[:longest] for value in values[:most]]


def as_text(value) -> str:
    """A cell as it would stand in a CSV: days in ISO form, figures with a point."""
    return str(value).strip()


def of_a_figure(value: float) -> str:
    return f"{value:.10g}"


#: How each kind of cell reads; others as they print themselves.
AS_TEXT: dict[type, Callable] = {
    type(None): lambda value: "",
    str: str.strip,
    bool: lambda value: "yes" if value else "no",
    int: str,
    float: of_a_figure,
    datetime: lambda value: value.date().isoformat(),
    date: date.isoformat,
    time: lambda value: f"{value:%H:%M}",
}


# ---- headers ----------------------------------------------------------------------------------------


def holds_figures(cells: list[str]) -> bool:
    """Whether at least half of what stands here begins as a figure does."""
    filled = [cell for cell in cells if cell]
    return 2 * sum(cell.lstrip("-+−")[:1].isdigit() for cell in filled) >= max(len(filled), 1)


def padded(cells: list[str], width: int) -> list[str]:
    return cells if len(cells) == width else [*cells[:width], *[""] * (width - len(cells))]
