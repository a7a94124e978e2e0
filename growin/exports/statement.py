"""The statement for the committee on two pages of paper, each with as much as it holds."""

from base64 import b64encode
from collections.abc import Sequence
from dataclasses import dataclass

from django.template.loader import render_to_string

from greens import units
from greens.choices import Units
from growin.charts.fan import fan_svg
from growin.evidence.statement import Statement
from growin.exports.press import PICTURE, VARIANT, Press, press
from growin.queries.threshold import Change

TEMPLATE = "growin/statement/document.html"
SHEETS = ("ground", "page", "readiness", "statement")
SECOND = "second"


@dataclass(frozen=True)
class First:
    """What the first page holds: words of the advice and of each reason, bars unmet, consequences;
    set in smaller type where it is close."""

    advice: int
    sentence: int
    unmet: int
    consequences: int
    is_close: bool = False


@dataclass(frozen=True)
class Second:
    """What the second page holds: words of a bar, of a reason and of a watch, changes, decisions."""

    sentence: int
    reason: int
    watches: int
    changes: int
    decisions: int
    settles: bool = False
    is_close: bool = False


#: From roomy to tight; each page takes the first in which it fits.
ROOMS = (
    (
        First(advice=120, sentence=60, unmet=10, consequences=5),
        First(advice=70, sentence=40, unmet=8, consequences=3),
        First(advice=60, sentence=35, unmet=8, consequences=3, is_close=True),
        First(advice=16, sentence=12, unmet=3, consequences=1, is_close=True),
    ),
    (
        Second(sentence=90, reason=60, watches=30, changes=12, decisions=6, settles=True),
        Second(sentence=90, reason=40, watches=20, changes=12, decisions=6),
        Second(sentence=60, reason=25, watches=20, changes=10, decisions=5, is_close=True),
        Second(sentence=16, reason=8, watches=0, changes=4, decisions=2, is_close=True),
    ),
)


@dataclass(frozen=True)
class Shortened:
    """The first of many, and how many more there are."""

    shown: Sequence
    more: int


def shortened(whole: Sequence, most: int) -> Shortened:
    return Shortened(whole[:most], max(len(whole) - most, 0))


def statement_pdf(statement: Statement) -> bytes:
    """Two pages as PDF/UA-1, on Letter for a club that reads inches, else on A4.

    Raises
    ------
    PangoMissing
        Where the library that sets type is not on this machine.
    """
    return laid_out(statement, press(*SHEETS)).write_pdf(pdf_variant=VARIANT)


def laid_out(statement: Statement, on: Press):
    """The pages; a leaf that runs over is tried again with less on it."""
    picture, rooms = picture_of(statement), [0, 0]
    while True:
        first, second = (ROOMS[leaf][room] for leaf, room in enumerate(rooms))
        document = on.pages(page_of(statement, picture, first, second))
        tighter = [leaf for leaf in running_over(document) if rooms[leaf] + 1 < len(ROOMS[leaf])]
        if not tighter:
            return document
        for leaf in tighter:
            rooms[leaf] += 1


def running_over(document) -> list[int]:
    """Which of the two leaves, 0 or 1, take more than a page."""
    before = next(number for number, page in enumerate(document.pages) if SECOND in page.anchors)
    return [leaf for leaf, pages in enumerate((before, len(document.pages) - before)) if pages > 1]


def page_of(statement: Statement, picture: str, first: First, second: Second) -> str:
    """The document as HTML, cut to the room there is."""
    known = statement.known
    shown = {
        "statement": statement,
        "known": known,
        "paper": "letter" if units.active() == Units.US else "a4",
        "picture": picture,
        "first": first,
        "second": second,
        "unmet": shortened(statement.outlook.unmet if statement.outlook else (), first.unmet),
        "consequences": statement.consequences[: first.consequences],
        "changes": shortened(loosened_first(known.changes), second.changes),
        "decisions": shortened(known.decisions, second.decisions),
    }
    return render_to_string(TEMPLATE, shown)


def loosened_first(changes: Sequence[Change]) -> list[Change]:
    """A loosened threshold is the last to be left out."""
    return sorted(changes, key=lambda one: not one.is_looser)


def picture_of(statement: Statement) -> str:
    """The forecast's picture, carried in the page itself; empty without a forecast."""
    fan = statement.fan
    return f"{PICTURE}{b64encode(fan_svg(fan, narrow=True)).decode()}" if fan else ""
