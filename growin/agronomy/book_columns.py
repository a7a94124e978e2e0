"""The columns of a club's books: its diary, its store and its readings, in one order for in and out.

What goes out under these headers comes in again without a question. A spreadsheet of somebody
else's making is recognised as far as its headers are usual words; the rest is said by hand once.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from growin.agronomy.fields import Field
from growin.agronomy.label import ELEMENTS, LINES
from growin.agronomy.measures import MEASURES
from growin.agronomy.works import WORKS

DIARY, PRODUCTS, READINGS = "diary", "products", "readings"
DETAIL, PROTOCOL, PART, BROUGHT = "detail.", "protocol.", "part.", "brought."


@dataclass(frozen=True)
class Column:
    """One column: its key, its header, other usual headers; ``many`` may stand in several columns,
    ``is_out_only`` is worked out and never read, ``is_in_only`` is another way of saying what others say."""

    key: str
    header: str
    others: tuple[str, ...] = ()
    many: bool = False
    is_out_only: bool = False
    is_in_only: bool = False


#: Headers of details where the words of the form need the form around them.
_OWN_HEADERS: Mapping[str, str] = {
    "kind": "How it was aerated",
    "depth_mm": "Depth, mm",
    "tool": "Tool",
    "form": "Fed as",
    "water": "Water at the outlet",
    "how": "How the joints were repaired",
    "what": "What",
    "by": "Damage by",
    "method": "Seeded by",
    "state": "State",
    "reason": "Not done because of",
    "live": "Water on and heads working",
    "text": "Words of the note",
    "work": "Work not done",
    "count": "Count of marks",
}
_USUAL_HEADERS: Mapping[str, tuple[str, ...]] = {
    "height_mm": ("height", "height of cut", "hoc", "cut height", "mowing height", "bench height"),
    "depth_mm": ("depth", "tine depth", "water depth"),
    "passes": ("passes", "no of passes"),
    "direction": ("direction", "mowing direction"),
    "clippings_ml_m2": ("clippings", "clipping volume"),
    "water_l_ha": ("water rate", "water volume"),
    "target": ("target", "pest or disease"),
    "operator": ("operator",),
}


def _fields(groups: Iterable[Iterable[Field]]) -> dict[str, Field]:
    """Each field once, by its key, as it stands first."""
    found: dict[str, Field] = {}
    for group in groups:
        for field in group:
            found.setdefault(field.key, field)
    return found


DETAILS = _fields(work.fields for work in WORKS.values())
PROTOCOLS = _fields(measure.protocol for measure in MEASURES.values())

_DAY = Column("on", "Day", ("date", "when", "day done", "date done", "datum"))
_TIME = Column("at_time", "Time", ("at", "start time", "hour"))
_NOTE = Column("note", "Note", ("notes", "remark", "remarks", "comment", "comments", "observations"))
_UNIT = Column("unit", "Unit", ("units", "uom"))
_GREEN = ("green", "greens", "hole", "hole no", "green no", "where", "location")
_DETAILS = tuple(
    Column(DETAIL + key, _OWN_HEADERS.get(key, field.label), _USUAL_HEADERS.get(key, ()))
    for key, field in DETAILS.items()
)

BOOKS: Mapping[str, tuple[Column, ...]] = {
    DIARY: (
        Column("entry", "Entry", ("entry no", "ref", "job no")),
        _DAY,
        _TIME,
        Column("greens", "Greens", _GREEN),
        Column("areas", "Area, m²", ("area m2", "area")),
        Column(
            "kind", "Work", ("job", "task", "operation", "activity", "work done", "type", "what was done")
        ),
        Column("product", "Product", ("material", "fertiliser", "fertilizer", "product used", "chemical")),
        Column("label", "Label", ("label no",)),
        Column(
            "amount", "Amount", ("quantity", "qty", "rate", "used", "dose", "amount used", "rate of product")
        ),
        _UNIT,
        *_DETAILS,
        Column("minutes", "Labour, min", ("minutes", "labour", "man minutes", "labour minutes")),
        Column("done_by", "Done by", ("by", "staff", "who", "initials", "greenkeeper")),
        _NOTE,
        *(Column(BROUGHT + element, f"{element}, mg/m²", is_out_only=True) for element in ELEMENTS),
    ),
    PRODUCTS: (
        Column("name", "Product", ("name", "product name", "material", "fertiliser")),
        Column("kind", "Kind", ("type", "category", "product type")),
        Column("registration_number", "Registration number", ("reg no", "mapp", "registration")),
        Column("label", "Label", ("label no",)),
        Column("from_day", "In the store since", ("since", "date", "from", "bought")),
        Column("unit", "Counted in", ("unit", "units")),
        Column("basis", "Per cent are", ("basis",)),
        Column("density_kg_l", "Density, kg/l", ("density", "sg", "specific gravity")),
        Column("bulk_density_t_m3", "Bulk density, t/m³", ("bulk density",)),
        Column("release_weeks", "Slow release, weeks", ("release weeks", "longevity weeks")),
        Column("retired_on", "Out of use since", ("retired", "discontinued")),
        Column("analysis", "Analysis", ("npk", "n p k", "analysis npk"), is_in_only=True),
        *(Column(PART + code, f"{line.words}, %", (code, f"{code} %")) for code, line in LINES.items()),
    ),
    READINGS: (
        Column("set", "Set", ("set no", "reading no")),
        _DAY,
        _TIME,
        Column("green", "Green", _GREEN),
        Column("measure", "Measure", ("reading", "measurement", "test", "parameter", "what")),
        Column("value", "Value", ("values", "result", "results", "reading mm"), many=True),
        Column("points", "Points of the frame", ("points", "out of")),
        Column("back", "Rolled back", ("back", "second way")),
        _UNIT,
        *(Column(PROTOCOL + key, field.label) for key, field in PROTOCOLS.items()),
        Column("taken_by", "Taken by", ("by", "staff", "who", "initials")),
        _NOTE,
    ),
}
#: One of each of these must be said by a column, or once for the whole book.
WANTED: Mapping[str, tuple[str, ...]] = {
    DIARY: ("on", "greens", "kind"),
    PRODUCTS: ("name", "kind"),
    READINGS: ("on", "green", "measure", "value"),
}
#: What may be said once for all rows where no column holds it.
SAID_ONCE: Mapping[str, tuple[str, ...]] = {
    DIARY: ("greens", "kind"),
    PRODUCTS: ("kind",),
    READINGS: ("green", "measure"),
}
_SHORT_PARTS = {"n": "N_total", "p": "P2O5", "k": "K2O"}
_UNIT_IN_HEADER = re.compile(r"[(\[,]\s*(?P<unit>[^()\[\],]*)[)\]]?\s*$")


def column(book: str, key: str) -> Column:
    """The column of a book called ``key``; raises KeyError when it has none."""
    return {one.key: one for one in BOOKS[book]}[key]


def plain_header(text: str) -> str:
    """A header as it is compared: small letters, without unit, stops and doubled blanks."""
    bare = _UNIT_IN_HEADER.sub("", text) if _UNIT_IN_HEADER.search(text) else text
    return re.sub(r"[^\w²³%]+", " ", (bare or text).lower()).strip()


def unit_in(header: str) -> str:
    """The unit that a header names: "Amount (kg)" and "Depth, mm" do; else nothing."""
    found = _UNIT_IN_HEADER.search(header)
    return found["unit"].strip() if found else ""


def recognised(book: str, headers: Sequence[str]) -> dict[int, str]:
    """Key by place of every header that is known; a key that may not stand twice takes its first."""
    whole, usual = _known(book)
    found: dict[int, str] = {}
    for place, header in enumerate(headers):
        key = whole.get(_whole(header)) or usual.get(plain_header(header))
        if key and (key not in found.values() or column(book, key).many):
            found[place] = key
    return found


def is_enough(book: str, keys: Iterable[str], said: Iterable[str] = ()) -> bool:
    """Whether everything that a row must have is named by a column or said once."""
    return set(WANTED[book]) <= {*keys, *said}


def _whole(header: str) -> str:
    return " ".join(header.lower().split())


@lru_cache(maxsize=4)
def _known(book: str) -> tuple[dict[str, str], dict[str, str]]:
    whole = {_whole(one.header): one.key for one in BOOKS[book]}
    usual = {
        plain_header(name): one.key for one in reversed(BOOKS[book]) for name in (one.header, *one.others)
    }
    if book == PRODUCTS:
        usual |= {short: PART + code for short, code in _SHORT_PARTS.items()}
    out_only = {one.key for one in BOOKS[book] if one.is_out_only}
    return whole, {name: key for name, key in usual.items() if key not in out_only}
