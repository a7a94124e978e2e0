"""Books as clubs keep them: the table found below titles and merged headers, without its blank columns.

Rows keep the number they have in the sheet. Laid by, a book is a CSV of our own until it is kept.
"""

import csv
from collections import Counter
from dataclasses import dataclass
from io import StringIO

from greens.validators.table_file import LINES_LOOKED_AT, Row, Wanted, filled_rows, holds_figures, padded
from greens.validators.upload import NotKept, named
from growin.agronomy.book_cells import AMOUNT_UNITS, plain_unit
from growin.agronomy.book_columns import recognised

MOST_COLUMNS = 140
UNITS = {*AMOUNT_UNITS, "min", "h", "%", "c", "m/s", "in", "ft", "m", "dd/mm/yyyy", "dd/mm/yy"}


@dataclass(frozen=True)
class BookTable:
    """Headers, and rows under them, each with its number in the sheet."""

    headers: list[str]
    rows: list[Row]


def wanted(kind: str) -> Wanted:
    return Wanted(
        likeness=lambda cells: len(recognised(kind, cells)),
        columns="a row of headers and rows below it",
        who="whoever keeps it",
        shorter="Save it in parts, a year to a file.",
        most_rows=200_000,
        most_rows_of_a_workbook=150_000,
        most_columns=MOST_COLUMNS,
        longest_cell=2_000,
    )


def book_table(upload, kind: str, sheet: str = "") -> BookTable:
    """The table in an upload. Raises NotKept with a sentence."""
    table = under_headers(filled_rows(upload, wanted(kind), sheet), kind)
    if not table.rows:
        raise NotKept(f"{named(upload)} has headers and no row below them.")
    return table


def under_headers(rows: list[Row], kind: str) -> BookTable:
    """Find the headers among the first rows, and take what stands below them."""
    at = place_of_headers(rows, kind)
    headers, below = rows[at][1], rows[at + 1 :]
    if at and not is_title(rows[at - 1][1]) and not holds_figures(rows[at - 1][1]):
        headers = under_groups(rows[at - 1][1], headers)
    if below and continues(below[0][1], headers, kind):
        headers, below = joined(headers, below[0][1]), below[1:]
    return without_blank_columns(headers, below)


def place_of_headers(rows: list[Row], kind: str) -> int:
    """The row with most headers that are known; where none is, the first of several texts."""
    scores = [len(recognised(kind, cells)) for _, cells in rows[:LINES_LOOKED_AT]]
    if max(scores) > 1:
        return scores.index(max(scores))
    first = (
        n
        for n, row in enumerate(rows[:LINES_LOOKED_AT])
        if not is_title(row[1]) and not holds_figures(row[1])
    )
    return next(first, 0)


def is_title(cells: list[str]) -> bool:
    """One cell alone is a title, a note, or a heading of a month."""
    return sum(map(bool, cells)) < 2


def under_groups(groups: list[str], headers: list[str]) -> list[str]:
    """Headers with what stands above them: a merged cell lies over several, a tall one over none."""
    width, over = max(len(groups), len(headers)), ""
    groups, headers = padded(groups, width), padded(headers, width)
    names = []
    for group, header in zip(groups, headers, strict=True):
        over = group or over
        is_twice = header and headers.count(header) > 1
        names.append(f"{over} {header}".strip() if is_twice else header or group)
    return names


def continues(cells: list[str], headers: list[str], kind: str) -> bool:
    """Whether a row still belongs to the headers: units alone, or headers where there were none."""
    filled = {n: cell for n, cell in enumerate(cells) if cell}
    blank = all(n >= len(headers) or not headers[n] for n in filled)
    return all(is_unit(cell) for cell in filled.values()) or (blank and bool(recognised(kind, cells)))


def is_unit(cell: str) -> bool:
    return plain_unit(cell.strip("()[]")) in UNITS


def joined(headers: list[str], units: list[str]) -> list[str]:
    width = max(len(headers), len(units))
    pairs = zip(padded(headers, width), padded(units, width), strict=True)
    named_so = (
        f"{header} ({unit.strip('()[]')})" if header and unit else header or unit for header, unit in pairs
    )
    return list(named_so)


def without_blank_columns(headers: list[str], below: list[Row]) -> BookTable:
    width = min(max([len(headers), *(len(cells) for _, cells in below)]), MOST_COLUMNS)
    headers, rows = padded(headers, width), [(n, padded(cells, width)) for n, cells in below]
    used = [
        place for place, cells in enumerate(zip(*(cells for _, cells in rows), strict=True)) if any(cells)
    ]
    used = used if rows else range(width)
    if len(used) < width:
        rows = [(n, [cells[place] for place in used]) for n, cells in rows]
    return BookTable(told_apart([headers[place] or f"column {place + 1}" for place in used]), rows)


def told_apart(headers: list[str]) -> list[str]:
    """No two headers alike: the second "Notes" is "Notes (2)"."""
    counted: Counter = Counter()
    names = []
    for header in headers:
        counted[header] += 1
        names.append(header if counted[header] == 1 else f"{header} ({counted[header]})")
    return [name[:120] for name in names]


# ---- as it is laid by until it is kept --------------------------------------------------------------


def laid_by(table: BookTable) -> str:
    out = StringIO()
    writer = csv.writer(out)
    writer.writerow(["row", *table.headers])
    writer.writerows([number, *cells] for number, cells in table.rows)
    return out.getvalue()


def taken_up(text: str) -> BookTable:
    lines = csv.reader(StringIO(text, newline=""))
    headers = next(lines)[1:]
    return BookTable(headers, [(int(cells[0]), cells[1:]) for cells in lines])
