"""A club's fair copy, written while it is sent: a ZIP of CSVs, or one workbook with a sheet per noun.

Nothing is gathered: rows go through the packer as they are read, so memory stays the same however
long the diary is. The same record gives the same bytes. Texts stay texts: no cell becomes a formula.
"""

import csv
import zipfile
from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal
from io import StringIO

from greens.validators.plain_cells import guarded
from growin.exports import workbook
from growin.queries.fair_copy import Part

ROWS_AT_A_TIME = 500
BEFORE_ALL = (1980, 1, 1, 0, 0, 0)


class Outlet:
    """Where the packer writes: what came is handed on and forgotten."""

    def __init__(self):
        self.came: list[bytes] = []

    def write(self, content: bytes) -> int:
        self.came.append(bytes(content))
        return len(content)

    def flush(self) -> None:
        """Nothing waits here."""

    def take(self) -> bytes:
        content, self.came = b"".join(self.came), []
        return content


def packed(files: Iterable[tuple[str, Iterable[bytes]]]) -> Iterator[bytes]:
    """Files by name as one ZIP, piece by piece."""
    outlet = Outlet()
    with zipfile.ZipFile(outlet, "w", zipfile.ZIP_DEFLATED) as bundle:
        for name, pieces in files:
            entry = zipfile.ZipInfo(name, BEFORE_ALL)
            entry.compress_type = zipfile.ZIP_DEFLATED
            with bundle.open(entry, "w", force_zip64=True) as file:
                for piece in pieces:
                    file.write(piece)
                    yield outlet.take()
            yield outlet.take()
    yield outlet.take()


def as_zip(parts: Iterable[Part]) -> Iterator[bytes]:
    """A CSV for each part."""
    return packed((f"{part.name}.csv", csv_pieces(part)) for part in parts)


def as_workbook(parts: list[Part]) -> Iterator[bytes]:
    """A sheet for each part."""
    frame = [(name, [text.encode()]) for name, text in workbook.frame([part.name for part in parts])]
    sheets = (
        (workbook.place_of_sheet(number), in_pieces(workbook.sheet(part.headers, part.rows())))
        for number, part in enumerate(parts, start=1)
    )
    return packed(chained(frame, sheets))


def chained(*groups: Iterable) -> Iterator:
    for group in groups:
        yield from group


def in_pieces(texts: Iterable[str]) -> Iterator[bytes]:
    gathered: list[str] = []
    for text in texts:
        gathered.append(text)
        if len(gathered) == ROWS_AT_A_TIME:
            yield "".join(gathered).encode()
            gathered.clear()
    yield "".join(gathered).encode()


def csv_pieces(part: Part) -> Iterator[bytes]:
    """The part as CSV in UTF-8, some rows at a time."""
    out = StringIO()
    writer = csv.writer(out)
    writer.writerow(part.headers)
    for number, row in enumerate(part.rows(), start=1):
        writer.writerow([None if value is None else as_cell(value) for value in row])
        if number % ROWS_AT_A_TIME == 0:
            yield taken(out)
    yield taken(out)


def taken(out: StringIO) -> bytes:
    content = out.getvalue().encode()
    out.seek(0)
    out.truncate()
    return content


def as_cell(value) -> str:
    """Figures bare and exact, days in ISO form, texts guarded against formulas."""
    if isinstance(value, str):
        return guarded(value)
    return as_figure(value) if isinstance(value, int | float | Decimal) else day(value)


def as_figure(value: float | Decimal) -> str:
    return f"{value.normalize():f}" if isinstance(value, Decimal) else f"{value:.12g}"


def day(value: date) -> str:
    return value.isoformat()
