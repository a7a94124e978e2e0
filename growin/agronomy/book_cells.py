"""Cells of a club's book: days, figures with their units, amounts, yes and no, as people type them.

A day such as 04/05/2026 is read only when it is known which of the two is the month, and a figure
such as 1,250 only when it is known what its comma does: both are asked, never guessed.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal, InvalidOperation
from fractions import Fraction

import pandas as pd

from growin.agronomy.amounts import BULK_PER_M2, DEPTH_MM, IN_ALL, PER_HA, PER_M2, whole_amount
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.units import ACRE_M2, GALLON_L, POUND_KG, THOUSAND_FT2_M2, UNITS, convert_exactly
from growin.agronomy.weather_cells import DAY_FIRST, MONTH_FIRST, as_days

FIRST_DAY = date(1950, 1, 1)
POINT, COMMA = ".", ","
GRAMS, MILLILITRES = "g", "ml"

_YEAR_LAST = re.compile(r"(\d{1,2})[-/. ](\d{1,2})[-/. ](?:\d{4}|\d\d)(?:[T ,].*)?")
_ORDINAL = re.compile(r"\b(\d{1,2})(?:st|nd|rd|th)\b", re.IGNORECASE)
_FIGURE = re.compile(r"\s*(?P<figure>[-+−–]?[\d.,'’ \u00a0\u202f]*\d)\s*(?P<unit>\D.*)?\s*", re.DOTALL)
_COULD_BE_THOUSANDS = re.compile(r"[-+]?[1-9]\d{0,2}[.,]\d{3}")
_BLANKS = str.maketrans({"'": "", "’": "", " ": "", "\u00a0": "", "\u202f": "", "−": "-", "–": "-"})


# ---- days -------------------------------------------------------------------------------------------


def order_told(texts: Iterable[str]) -> str | None:
    """Which of day and month the cells themselves put first; "" where it makes no difference.

    None: there are days that could be read both ways, and nothing tells (or cells disagree).
    """
    pairs = [tuple(map(int, found.groups())) for text in texts if (found := _YEAR_LAST.fullmatch(text))]
    told = {DAY_FIRST for one, two in pairs if one > 12 >= two}
    told |= {MONTH_FIRST for one, two in pairs if two > 12 >= one}
    if len(told) == 1:
        return told.pop()
    return None if any(one <= 12 and two <= 12 and one != two for one, two in pairs) else ""


def days_of(texts: Iterable[str], order: str) -> dict[str, date | None]:
    """The day of every different text, None where it is no day; ``order`` is "dmy" or "mdy"."""
    different = pd.Series(sorted(set(texts)), dtype=str)
    days, _ = as_days(different.str.replace(_ORDINAL, r"\1", regex=True), order=order or DAY_FIRST)
    read = [None if pd.isna(day) else day.date() for day in days]
    return dict(zip(different, read, strict=True))


# ---- figures ----------------------------------------------------------------------------------------


def comma_told(texts: Iterable[str]) -> str | None:
    """What stands before decimals in these cells; "" where no cell leaves it open.

    None: there are figures such as 1,250 and nothing tells (or cells disagree).
    """
    figures = [found["figure"].translate(_BLANKS) for text in texts if (found := _FIGURE.fullmatch(text))]
    told = {sign for figure in figures if (sign := _sign_told(figure))}
    if len(told) == 1:
        return told.pop()
    return None if any("," in one and _COULD_BE_THOUSANDS.fullmatch(one) for one in figures) else ""


def _sign_told(figure: str) -> str:
    """The decimal sign that one figure shows beyond doubt, or nothing."""
    commas, points = figure.count(","), figure.count(".")
    if commas and points:
        return max(",.", key=figure.rfind)
    if commas > 1 or points > 1:
        return POINT if commas else COMMA
    if not commas + points or _COULD_BE_THOUSANDS.fullmatch(figure):
        return ""
    return COMMA if commas else POINT


def figure_and_unit(text: str, comma: str = POINT) -> tuple[Decimal, str]:
    """ "22,5 kg" as 22.5 and "kg"; ``comma`` is the sign before decimals where a figure leaves it open.

    Raises ImpossibleValue for what does not begin with a figure.
    """
    found = _FIGURE.fullmatch(text)
    try:
        return Decimal(_with_point(found["figure"].translate(_BLANKS), comma)), (found["unit"] or "").strip()
    except (InvalidOperation, TypeError):
        raise ImpossibleValue("figure", f"“{text[:40]}”", "a number such as 12.5") from None


def _with_point(figure: str, comma: str) -> str:
    sign = _sign_told(figure)
    if not sign:
        sign = comma if _COULD_BE_THOUSANDS.fullmatch(figure) else POINT
    other = COMMA if sign == POINT else POINT
    return figure.replace(other, "").replace(sign, ".")


# ---- units ------------------------------------------------------------------------------------------

_SIGNS = {
    "²": "2", "³": "3", "sqm": "m2", "sq.m": "m2", "sq m": "m2", "m^2": "m2", "litres": "l", "litre": "l",
    "liters": "l", "liter": "l", "ltrs": "l", "ltr": "l", "lts": "l", "lt": "l", "kgs": "kg", "kilos": "kg",
    "kilo": "kg", "grams": "g", "gram": "g", "gms": "g", "gm": "g", "tonnes": "t", "tonne": "t", "lbs": "lb",
    "mins": "min", "minutes": "min", "hours": "h", "hrs": "h", "millimetres": "mm", "hectare": "ha",
    "sq ft": "ft2", "sqft": "ft2", "inches": "in", "inch": "in", '"': "in", "gals": "gal",
    "us gal": "gal", "us fl oz": "floz", "fl oz": "floz", "°c": "c", "percent": "%", "per cent": "%",
}  # fmt: skip
_LONGEST_FIRST = sorted(_SIGNS, key=len, reverse=True)


def plain_unit(text: str) -> str:
    """A unit as it is compared: "kg / m²", "kg per sqm" are "kg/m2"."""
    bare = text.lower().strip().rstrip(".").replace(" per ", "/")
    for sign in _LONGEST_FIRST:
        whole = (
            rf"(?<![a-z]){re.escape(sign)}(?![a-z])" if sign.replace(" ", "").isalpha() else re.escape(sign)
        )
        bare = re.sub(whole, _SIGNS[sign], bare)
    return re.sub(r"[\s,]", "", bare)


_UNIT_KEYS = {plain_unit(unit.sign): key for key, unit in UNITS.items()}


def in_unit(text: str, unit: str, typed_unit: str = "", comma: str = POINT) -> Decimal:
    """A figure in ``unit``, whether the cell names that unit, another of its quantity, or none.

    ``typed_unit`` is what the header says of figures that name none.
    Raises ImpossibleValue for no figure, or a unit of something else.
    """
    figure, named = figure_and_unit(text, comma)
    given, wanted = plain_unit(named or typed_unit), plain_unit(unit)
    if given in ("", wanted):
        return figure
    keys = _UNIT_KEYS.get(given), _UNIT_KEYS.get(wanted)
    if None in keys or UNITS[keys[0]].quantity != UNITS[keys[1]].quantity:
        raise ImpossibleValue("figure", f"“{text[:40]}”", f"one in {unit}" if unit else "one without a unit")
    exact = convert_exactly(figure, *keys)
    return round(Decimal(exact.numerator) / Decimal(exact.denominator), 4)


#: What an amount may be given in: way of :mod:`growin.agronomy.amounts`, how many of its unit, g or ml.
AMOUNT_UNITS = {
    "kg": (IN_ALL, 1, GRAMS),
    "g": (IN_ALL, Decimal("0.001"), GRAMS),
    "t": (IN_ALL, 1000, GRAMS),
    "l": (IN_ALL, 1, MILLILITRES),
    "ml": (IN_ALL, Decimal("0.001"), MILLILITRES),
    "g/m2": (PER_M2, 1, GRAMS),
    "ml/m2": (PER_M2, 1, MILLILITRES),
    "kg/m2": (BULK_PER_M2, 1, GRAMS),
    "l/m2": (BULK_PER_M2, 1, MILLILITRES),
    "kg/ha": (PER_HA, 1, GRAMS),
    "t/ha": (PER_HA, 1000, GRAMS),
    "l/ha": (PER_HA, 1, MILLILITRES),
    "mm": (DEPTH_MM, 1, GRAMS),
    "lb": (IN_ALL, POUND_KG, GRAMS),
    "oz": (IN_ALL, POUND_KG / 16, GRAMS),
    "gal": (IN_ALL, GALLON_L, MILLILITRES),
    "floz": (IN_ALL, GALLON_L / 128, MILLILITRES),
    "lb/1000ft2": (PER_M2, POUND_KG * 1000 / THOUSAND_FT2_M2, GRAMS),
    "floz/1000ft2": (PER_M2, GALLON_L * 1000 / 128 / THOUSAND_FT2_M2, MILLILITRES),
    "lb/acre": (PER_HA, POUND_KG * 10_000 / ACRE_M2, GRAMS),
}


@dataclass(frozen=True)
class Amount:
    """An amount as it was written: a figure, a way of giving it, and what it counts: "g" or "ml"."""

    figure: Decimal
    way: str
    factor: int | Decimal | Fraction
    counts: str

    def whole(self, area_dm2: int, bulk_density_t_m3=None) -> int:
        """Whole g or ml over the area, dm²; raises as :func:`growin.agronomy.amounts.whole_amount`."""
        typed = Fraction(self.figure) * Fraction(self.factor)
        return whole_amount(typed, self.way, area_dm2, bulk_density_t_m3)


def amount_of(text: str, typed_unit: str = "", comma: str = POINT) -> Amount:
    """ "22,5 kg", "0.5 kg/m²", "8 mm" of sand; ``typed_unit`` holds where the cell names none.

    Raises ImpossibleValue for no figure, and for units that nothing is known of, such as bags.
    """
    figure, named = figure_and_unit(text, comma)
    unit = plain_unit(named or typed_unit)
    if unit not in AMOUNT_UNITS:
        given = f"“{text[:40]}”" if unit else f"“{text[:40]}” without a unit"
        raise ImpossibleValue("amount", given, "in kg, g, t, l, ml, g/m², kg/m², kg/ha, l/ha or mm of sand")
    way, factor, counts = AMOUNT_UNITS[unit]
    return Amount(figure, way, factor, counts)


# ---- names of greens --------------------------------------------------------------------------------

_NUMBERS = (
    ("first", "one"), ("second", "two"), ("third", "three"), ("fourth", "four"), ("fifth", "five"),
    ("sixth", "six"), ("seventh", "seven"), ("eighth", "eight"), ("ninth", "nine"), ("tenth", "ten"),
    ("eleventh", "eleven"), ("twelfth", "twelve"), ("thirteenth", "thirteen"), ("fourteenth", "fourteen"),
    ("fifteenth", "fifteen"), ("sixteenth", "sixteen"), ("seventeenth", "seventeen"),
    ("eighteenth", "eighteen"),
)  # fmt: skip
_AS_FIGURE = {word: str(n) for n, words in enumerate(_NUMBERS, start=1) for word in words}
_NO_MATTER = {"the", "green", "greens", "hole", "no", "nr", "number", "g"}
ALL_GREENS = frozenset(
    {"all", "all greens", "all 18", "all 18 greens", "whole course", "1-18", "all the greens"}
)
_BETWEEN = re.compile(r"\s*(?:[;,&+\n|]|\band\b)\s*", re.IGNORECASE)
_RUN = re.compile(r"\s*(\d{1,2})\s*(?:-|–|to)\s*(\d{1,2})\s*")


def green_key(name: str) -> str:
    """A name as it is compared: "7th", "Seventh", "No 7", "Green 7", "Hole no. 7" are all "7"."""
    words = re.findall(r"\d+|[^\W\d_]+", _ORDINAL.sub(r"\1", name.lower()))
    kept = [_AS_FIGURE.get(word, word) for word in words if word not in _NO_MATTER]
    return " ".join(str(int(word)) if word.isdecimal() else word for word in kept) or name.lower().strip()


def greens_named(text: str) -> list[str]:
    """The single greens that a cell names: "3, 5 & 7", "1-4"."""
    pieces = [piece for piece in _BETWEEN.split(text.strip()) if piece]
    return [name for piece in pieces for name in _run(piece)]


def _run(piece: str) -> list[str]:
    found = _RUN.fullmatch(piece)
    if not found or int(found[1]) >= int(found[2]):
        return [piece]
    return [str(number) for number in range(int(found[1]), int(found[2]) + 1)]
