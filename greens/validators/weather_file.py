"""Files of weather as stations and people write them, made into one table of texts.

How a file becomes rows is told in :mod:`greens.validators.table_file`; of a workbook the sheet is taken
that looks like weather. Lines above the headers are passed over, a line of units below them is joined
to them. Rows keep the number they have in the file, so that a sentence can name them.
"""

import csv
from dataclasses import dataclass
from io import BytesIO, StringIO

import pandas as pd

from greens.validators.table_file import LINES_LOOKED_AT, Row, Wanted, filled_rows, holds_figures, padded
from greens.validators.upload import NotKept, named
from growin.agronomy.weather_columns import is_enough, recognised

MOST_COLUMNS = 60
WEATHER_WANTED = Wanted(
    likeness=lambda cells: is_enough(recognised(cells)),
    columns="a row of headers and a row a day",
    who="the station",
    #: A row a day since 1950 is fewer than 30,000 rows (our judgement).
    shorter="A row a day since 1950 is fewer than 30,000: where its rows are hours, "
    "have the station write days.",
    most_rows=150_000,
    most_rows_of_a_workbook=60_000,
    most_columns=MOST_COLUMNS,
    longest_cell=60,
)


@dataclass(frozen=True)
class WeatherTable:
    """Headers, and texts under them; the index is the row's number in the file."""

    headers: list[str]
    texts: pd.DataFrame


def weather_table(upload) -> WeatherTable:
    """The table in an upload. Raises NotKept with a sentence."""
    table = under_headers(filled_rows(upload, WEATHER_WANTED))
    if table.texts.empty:
        raise NotKept(f"{named(upload)} has headers and no day below them.")
    return table


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


def joined(headers: list[str], units: list[str]) -> list[str]:
    width = max(len(headers), len(units))
    pairs = zip(padded(headers, width), padded(units, width), strict=True)
    return [f"{header} {unit}".strip() for header, unit in pairs]


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
