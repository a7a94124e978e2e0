"""Files of weather as stations and people write them, made into one table of texts.

A CSV is decoded, its separator found by counting; of a workbook the sheet is taken that looks like
weather. Lines above the headers are passed over, a line of units below them is joined to them.
Rows keep the number they have in the file, so that a sentence can name them.
"""

import csv
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from io import BytesIO, StringIO
from itertools import islice

import pandas as pd
from django.conf import settings
from openpyxl import load_workbook

from greens.validators.upload import BROKEN, NotKept, is_workbook, megabytes, named
from growin.agronomy.weather_columns import is_enough, recognised

#: A row a day since 1950 is fewer than 30,000 rows (our judgement).
MOST_ROWS, MOST_ROWS_OF_A_WORKBOOK = 150_000, 60_000
MOST_COLUMNS, LONGEST_CELL = 60, 60
MOST_UNPACKED_BYTES = 300_000_000
LINES_LOOKED_AT = 40
SEPARATORS = (",", ";", "\t", "|")
OLD_WORKBOOK = b"\xd0\xcf\x11\xe0"
CANNOT_BE_UNPACKED = (*BROKEN, zipfile.BadZipFile, AttributeError, AssertionError)

Row = tuple[int, list[str]]


@dataclass(frozen=True)
class WeatherTable:
    """Headers, and texts under them; the index is the row's number in the file."""

    headers: list[str]
    texts: pd.DataFrame


def weather_table(upload) -> WeatherTable:
    """The table in an upload. Raises NotKept with a sentence."""
    if upload.size > settings.UPLOAD_LIMIT_BYTES:
        limit = megabytes(settings.UPLOAD_LIMIT_BYTES)
        raise NotKept(f"{named(upload)} has {megabytes(upload.size)}; a file may have at most {limit}.")
    upload.seek(0)
    content = upload.read()
    rows = [row for row in rows_of(named(upload), content) if any(row[1])]
    if not rows:
        raise NotKept(f"{named(upload)} is empty; it should have a row of headers and a row a day.")
    table = under_headers(rows)
    if table.texts.empty:
        raise NotKept(f"{named(upload)} has headers and no day below them.")
    return table


def rows_of(name: str, content: bytes) -> Iterable[Row]:
    if content.startswith(OLD_WORKBOOK):
        raise NotKept(f"{name} is a workbook of the old kind; save it as XLSX or CSV.")
    if content.startswith(b"PK"):
        return rows_of_workbook(name, content)
    return rows_of_text(name, content)


# ---- CSV --------------------------------------------------------------------------------------------


def rows_of_text(name: str, content: bytes) -> list[Row]:
    text = decoded(content)
    if "\0" in text:
        raise NotKept(f"{name} is neither CSV nor XLSX; have the station write one of these.")
    refuse_too_long(name, text.count("\n"), MOST_ROWS)
    lines = csv.reader(StringIO(text, newline=""), delimiter=separator(text))
    try:
        return [(number, as_cells(cells)) for number, cells in enumerate(lines, start=1)]
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
    """The sign that parts most of the first lines; a comma only where it is not in decimals."""
    lines = text.splitlines()[:LINES_LOOKED_AT]
    counts = {sign: sum(min(line.count(sign), MOST_COLUMNS) for line in lines) for sign in SEPARATORS}
    others = {sign: count for sign, count in counts.items() if sign != "," and count >= len(lines) / 2}
    return max(others, key=others.get) if others else ","


def refuse_too_long(name: str, rows: int, most: int) -> None:
    if rows > most:
        raise NotKept(
            f"{name} has {'more than ' * (rows == most + 1)}{rows - (rows == most + 1):,} rows; at most "
            f"{most:,} are read. A row a day since 1950 is fewer than 30,000: where its rows are hours, "
            "have the station write days."
        )


def as_cells(cells: Iterable) -> list[str]:
    return [cell.strip()[:LONGEST_CELL] for cell in islice(cells, MOST_COLUMNS)]


# ---- XLSX -------------------------------------------------------------------------------------------


def rows_of_workbook(name: str, content: bytes) -> list[Row]:
    if not is_workbook(content):
        raise NotKept(f"{name} is not an XLSX workbook that can be read; save it as CSV.")
    with zipfile.ZipFile(BytesIO(content)) as bundle:
        unpacked = sum(part.file_size for part in bundle.infolist())
    if unpacked > MOST_UNPACKED_BYTES:
        raise NotKept(f"{name} unpacks to {megabytes(unpacked)}, too much to be read; save the days as CSV.")
    try:
        book = load_workbook(BytesIO(content), read_only=True, data_only=True)
        sheet = max(book.worksheets, key=looks_like_weather)
        rows = list(islice(rows_of_sheet(sheet), MOST_ROWS_OF_A_WORKBOOK + 1))
    except CANNOT_BE_UNPACKED:
        raise NotKept(f"{name} is not an XLSX workbook that can be read; save it as CSV.") from None
    refuse_too_long(name, len(rows), MOST_ROWS_OF_A_WORKBOOK)
    return rows


def looks_like_weather(sheet) -> bool:
    return any(is_enough(recognised(cells)) for _, cells in islice(rows_of_sheet(sheet), LINES_LOOKED_AT))


def rows_of_sheet(sheet) -> Iterator[Row]:
    rows = sheet.iter_rows(values_only=True, max_col=MOST_COLUMNS)
    return ((number, as_cells(map(as_text, values))) for number, values in enumerate(rows, start=1))


def as_text(value) -> str:
    """A cell as it would stand in a CSV: days in ISO form, figures with a point."""
    if value is None:
        return ""
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, date):
        return value.isoformat()
    return f"{value:.10g}" if isinstance(value, float) else str(value)


# ---- headers ----------------------------------------------------------------------------------------


def under_headers(rows: list[Row]) -> WeatherTable:
    """Find the headers among the first rows, and take what stands below them."""
    at = next((n for n, row in enumerate(rows[:LINES_LOOKED_AT]) if is_enough(recognised(row[1]))), None)
    if at is None:
        at = next(
            (n for n, row in enumerate(rows[:LINES_LOOKED_AT]) if len(list(filter(None, row[1]))) > 1), 0
        )
    headers, below = rows[at][1], rows[at + 1 :]
    if holds_figures(headers):
        headers, below = [], rows[at:]
    elif below and not holds_figures(below[0][1]):
        headers, below = joined(headers, below[0][1]), below[1:]
    width = min(max(len(headers), max((len(cells) for _, cells in below), default=0)), MOST_COLUMNS)
    named_all = [header or f"column {n}" for n, header in enumerate(padded(headers, width), start=1)]
    texts = pd.DataFrame(
        [padded(cells, width) for _, cells in below], index=[n for n, _ in below], columns=range(width)
    )
    return WeatherTable(named_all, texts.astype(str))


def holds_figures(cells: list[str]) -> bool:
    """Whether at least half of what stands here begins as a figure does."""
    filled = [cell for cell in cells if cell]
    return 2 * sum(cell.lstrip("-+−")[:1].isdigit() for cell in filled) >= max(len(filled), 1)


def joined(headers: list[str], units: list[str]) -> list[str]:
    width = max(len(headers), len(units))
    pairs = zip(padded(headers, width), padded(units, width), strict=True)
    return [f"{header} {unit}".strip() for header, unit in pairs]


def padded(cells: list[str], width: int) -> list[str]:
    return [*cells[:width], *[""] * (width - len(cells))]


# ---- as it is laid by until it is kept --------------------------------------------------------------


def laid_by(table: WeatherTable) -> bytes:
    return table.texts.to_csv(header=table.headers, index_label="row").encode()


def taken_up(content: bytes) -> WeatherTable:
    texts = pd.read_csv(
        BytesIO(content), dtype=str, keep_default_na=False, index_col=0, header=None, skiprows=1
    )
    headers = next(csv.reader(StringIO(content.decode()[:20_000])))[1:]
    texts.index = texts.index.astype(int)
    texts.columns = range(texts.shape[1])
    return WeatherTable(headers, texts)
