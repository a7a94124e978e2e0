"""The parts of an XLSX workbook, row by row: figures as figures, days as days, all else as text in place.

Text stands as an inline string, which no program reads as a formula (ECMA-376, part 1, 18.18.11).
"""

import re
from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal
from functools import lru_cache

HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
KIND = "application/vnd.openxmlformats-officedocument.spreadsheetml"
#: Day 0 of spreadsheets, with their 29 February 1900.
DAY_0 = date(1899, 12, 30)
LONGEST_TEXT = 32_000
NOT_IN_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")
LOOKS_ESCAPED = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
SIGNS = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", "\r": "&#13;"})


def place_of_sheet(number: int) -> str:
    return f"xl/worksheets/sheet{number}.xml"


def frame(names: list[str]) -> list[tuple[str, str]]:
    """Everything of a workbook but its sheets, as (place in the file, content)."""
    return [
        ("[Content_Types].xml", content_types(len(names))),
        ("_rels/.rels", relations([("rId1", "officeDocument", "xl/workbook.xml")])),
        ("xl/workbook.xml", book(names)),
        ("xl/_rels/workbook.xml.rels", relations_of_book(len(names))),
        ("xl/styles.xml", styles()),
    ]


def content_types(count: int) -> str:
    sheets = "".join(override(f"/{place_of_sheet(n)}", "worksheet") for n in range(1, count + 1))
    return (
        f'{HEAD}<Types xmlns="{PACKAGE}/content-types">'
        '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        '<Default Extension="xml" ContentType="application/xml"/>'
        f"{override('/xl/workbook.xml', 'sheet.main')}{override('/xl/styles.xml', 'styles')}{sheets}</Types>"
    )


def override(place: str, kind: str) -> str:
    return f'<Override PartName="{place}" ContentType="{KIND}.{kind}+xml"/>'


def relations(rows: Iterable[tuple[str, str, str]]) -> str:
    inside = "".join(
        f'<Relationship Id="{key}" Type="{OFFICE}/{kind}" Target="{to}"/>' for key, kind, to in rows
    )
    return f'{HEAD}<Relationships xmlns="{PACKAGE}/relationships">{inside}</Relationships>'


def relations_of_book(count: int) -> str:
    sheets = [(f"rId{n}", "worksheet", f"worksheets/sheet{n}.xml") for n in range(1, count + 1)]
    return relations([*sheets, (f"rId{count + 1}", "styles", "styles.xml")])


def book(names: list[str]) -> str:
    sheets = "".join(
        f'<sheet name="{escaped(name)}" sheetId="{n}" r:id="rId{n}"/>'
        for n, name in enumerate(names, start=1)
    )
    return f'{HEAD}<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets>{sheets}</sheets></workbook>'


def styles() -> str:
    """Two: as it comes, and a day (format 14 is the short date of whoever opens it)."""
    return (
        f'{HEAD}<styleSheet xmlns="{MAIN}"><fonts count="1"><font><sz val="11"/></font></fonts>'
        '<fills count="2"><fill><patternFill patternType="none"/></fill>'
        '<fill><patternFill patternType="gray125"/></fill></fills>'
        '<borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs>'
        '<cellXfs count="2"><xf/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs>'
        '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>'
    )


def sheet(headers: list[str], rows: Iterable[list]) -> Iterator[str]:
    """A sheet, row by row."""
    yield f'{HEAD}<worksheet xmlns="{MAIN}"><sheetData>'
    yield row(1, headers)
    for number, values in enumerate(rows, start=2):
        yield row(number, values)
    yield "</sheetData></worksheet>"


def row(number: int, values: list) -> str:
    cells = [
        cell(f"{letters(n)}{number}", value) for n, value in enumerate(values) if value not in (None, "")
    ]
    return f'<row r="{number}">{"".join(cells)}</row>'


def cell(place: str, value) -> str:
    if isinstance(value, str):
        return f'<c r="{place}" t="inlineStr"><is><t xml:space="preserve">{text(value)}</t></is></c>'
    if isinstance(value, date):
        return f'<c r="{place}" s="1"><v>{(value - DAY_0).days}</v></c>'
    figure = f"{value.normalize():f}" if isinstance(value, Decimal) else f"{value:.12g}"
    return f'<c r="{place}"><v>{figure}</v></c>'


def text(value: str) -> str:
    """As it may stand in XML, and come back as it was."""
    bare = NOT_IN_XML.sub("", value)[:LONGEST_TEXT]
    return escaped(LOOKS_ESCAPED.sub("_x005F_", bare))


def escaped(value: str) -> str:
    return value.translate(SIGNS).replace('"', "&quot;")


@lru_cache(maxsize=512)
def letters(place: int) -> str:
    """The name of a column: 0 is A, 26 is AA."""
    name = ""
    place += 1
    while place:
        place, rest = divmod(place - 1, 26)
        name = chr(65 + rest) + name
    return name
