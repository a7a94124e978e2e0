"""What a club reads and types: the stored unit, or the US customary one beside it.

The house stores metric figures only. A door says once, for the whole request, in which units its
club reads (:func:`shown_in`), as it says the local time; forms and templates ask here. Factors are
those of :mod:`growin.agronomy.units`, exact (NIST SP 811, appendix B.8).
"""

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import ceil, floor

from greens.choices import Units
from growin.agronomy.units import convert_exactly, unit_named


@dataclass(frozen=True)
class Quantity:
    """Keys of the stored unit and the US one; ``places`` where a figure has always as many decimals."""

    stored: str
    us: str
    places: int | None = None
    words: str = ""

    @property
    def sign(self) -> str:
        return self.words or unit_named(self.us).sign

    def exact(self, figure: Decimal) -> Fraction:
        return convert_exactly(figure, self.stored, self.us)

    def back(self, figure: Decimal | Fraction) -> Fraction:
        return convert_exactly(figure, self.us, self.stored)


#: By the sign of the stored unit. What is not listed is read alike everywhere: per cent, ppm, days,
#: t/m³ of a laboratory; sieves stay in mm, as American laboratories print them too.
QUANTITIES: Mapping[str, Quantity] = {
    "mm": Quantity("mm", "in"),
    "mm of sand": Quantity("mm", "in", words="in of sand"),
    "m": Quantity("m", "ft"),
    "m²": Quantity("m2", "ft2"),
    "ha": Quantity("ha", "acre"),
    "g/m²": Quantity("g_m2", "lb_1000ft2"),
    "kg/m²": Quantity("kg_m2", "sand_lb_1000ft2"),
    "kg/ha": Quantity("kg_ha", "lb_1000ft2"),
    "t/ha": Quantity("t_ha", "sand_lb_1000ft2"),
    "kg on each ha": Quantity("kg_ha", "lb_acre"),
    "l/ha": Quantity("l_ha", "gal_1000ft2"),
    "l on each ha": Quantity("l_ha", "gal_acre"),
    "ml/m²": Quantity("ml_m2", "fl_oz_1000ft2"),
    "l/m²": Quantity("l_m2", "gal_1000ft2"),
    "kg": Quantity("kg", "lb"),
    "g": Quantity("g", "oz"),
    "t": Quantity("t", "short_ton", words="short tons"),
    "l": Quantity("l", "gal"),
    "litres": Quantity("l", "gal"),
    "ml": Quantity("ml", "fl_oz"),
    "m³": Quantity("m3", "yd3"),
    "m³ of water": Quantity("water_m3", "water_gal", words="US gal of water"),
    "l/min": Quantity("l_min", "gal_min"),
    "kg/l": Quantity("kg_l", "lb_gal"),
    "mm/h": Quantity("mm_h", "in_h"),
    "m/s": Quantity("m_s", "mph"),
    "km/h": Quantity("km_h", "mph"),
    "°C": Quantity("c", "f", places=1),
    "°C more or less": Quantity("c_apart", "f_apart", places=1, words="°F more or less"),
    "°C·days": Quantity("c_days", "f_days", places=0),
}
NUTRIENT = re.compile(r"kg (?P<element>[A-Z][a-z]?)/ha")
_FIGURE = r"[-−]?\d+(?:,\d{3})*(?:\.\d+)?"
_SIGNS = "|".join(re.escape(one) for one in sorted(QUANTITIES, key=len, reverse=True))
MEASURED = re.compile(
    rf"(?<![\w.,/-])(?P<figures>{_FIGURE}(?:(?:–| to | and | or | × ){_FIGURE})*)"
    rf"(?P<space>[ \u00a0])(?P<unit>{NUTRIENT.pattern}|{_SIGNS})(?![\w/²³·])"
)
#: Name of the hidden box in which a form says the units it was opened in.
TYPED_IN = "typed_in"
MOST_PLACES = 8
#: A refusal names the unit once, before its figures: "depth, mm: 900 is not possible; …".
REFUSED = re.compile(
    rf", (?P<unit>{_SIGNS}): (?P<given>{_FIGURE}|“[^”]*”) is not possible; it should be "
    rf"(?P<right>[a-z ]*(?:from {_FIGURE} to|at least|at most|above) (?:[a-z ]+, )?{_FIGURE}\.)"
)
#: A rate said once for each of two stored units is one figure in the other.
TWICE = re.compile(rf"(?<=g/m²) \({_FIGURE} (?:kg|t)/ha\)")
#: Sizes of grains stay in mm.
OF_GRAINS = re.compile("finer than|coarser than|Middle size")
#: A figure on a page is rounded to within one two-hundredth of itself (our judgement).
CLOSE_ENOUGH = Fraction(1, 200)

_active: ContextVar[str] = ContextVar("units", default=Units.METRIC)


@contextmanager
def shown_in(units: str) -> Iterator[None]:
    """Let forms and pages speak in these units until the block ends."""
    before = _active.set(units)
    try:
        yield
    finally:
        _active.reset(before)


def active() -> str:
    """The units in which forms and pages speak now."""
    return _active.get()


def asked(given: str | None, club_units: str) -> str:
    """The units a form was typed in, should they have been switched since it was opened; else the club's."""
    return given if given in Units.values else club_units


def quantity(unit: str) -> Quantity | None:
    """How a stored unit is read now; None where it is read as it is stored."""
    if active() != Units.US:
        return None
    nutrient = NUTRIENT.fullmatch(unit)
    if nutrient:
        return Quantity("kg_ha", "lb_1000ft2", words=f"lb {nutrient['element']}/1,000 ft²")
    return QUANTITIES.get(unit)


def sign(unit: str) -> str:
    """The unit's sign as the club reads it: "mm" or "in"."""
    shown = quantity(unit)
    return shown.sign if shown else unit


def label(words: str, unit: str) -> str:
    """Words that end with the stored unit, with the one that is read: "Level readings, mm"."""
    return f"{words.removesuffix(unit)}{sign(unit)}" if words.endswith(f", {unit}") else words


def figure(value: str | float | Decimal, unit: str) -> str:
    """A figure as it stands on a page, without its unit: no more decimals than it needs."""
    shown = quantity(unit)
    return _on_page(shown, value) if shown else str(value)


def amount(value: str | float | Decimal, unit: str) -> str:
    """A figure with its unit: "5.5 mm" or "0.217 in"."""
    return f"{figure(value, unit)} {sign(unit)}"


def said(sentence: str) -> str:
    """A sentence of ours with its metric figures as the club reads them."""
    if active() != Units.US or OF_GRAINS.search(sentence):
        return sentence
    return MEASURED.sub(_resaid, REFUSED.sub(_refused_again, TWICE.sub("", sentence)))


def in_trade_words(words: str) -> str:
    """How the surface was established, as the club says it: what is laid is sod where inches are read."""
    return words.replace("turf", "sod") if active() == Units.US else words


def written(value, unit: str, places: int) -> str | None:
    """A stored figure as it is typed: the shortest that brings back the same to ``places`` decimals."""
    shown = quantity(unit)
    if shown is None or value is None or value == "":
        return value
    kept = Decimal(str(value))
    exact = shown.exact(kept)
    tries = (round(exact, n) for n in range(MOST_PLACES))
    closest = (one for one in tries if round(shown.back(one), places) == round(Fraction(kept), places))
    return _plain(next(closest, round(exact, MOST_PLACES)))


def stored(typed: Decimal, unit: str, places: int) -> Decimal:
    """What was typed, in the stored unit, to ``places`` decimals."""
    shown = quantity(unit)
    return _decimal(round(shown.back(typed), places)) if shown else typed


def limits(low: float | None, high: float | None, unit: str) -> tuple[float | None, float | None]:
    """The range that a typed figure may have, in the unit read, rounded inwards."""
    shown = quantity(unit)
    if shown is None:
        return low, high
    return _inwards(shown, low, ceil), _inwards(shown, high, floor)


def _inwards(shown: Quantity, limit: float | None, way) -> float | None:
    if limit is None:
        return None
    exact = shown.exact(Decimal(str(limit)))
    scale = 10 ** _places(shown, exact)
    return float(Fraction(way(exact * scale), scale))


def _places(shown: Quantity, exact: Fraction) -> int:
    """Decimals on a page."""
    if shown.places is not None:
        return shown.places
    close = (n for n in range(MOST_PLACES) if abs(round(exact, n) - exact) <= abs(exact) * CLOSE_ENOUGH)
    return next(close, MOST_PLACES)


def _on_page(shown: Quantity, value) -> str:
    exact = shown.exact(Decimal(str(value).replace(",", "").replace("−", "-")))
    return _plain(round(exact, _places(shown, exact)), ",")


def _resaid(found: re.Match) -> str:
    shown = quantity(found["unit"])
    return f"{_refigured(shown, found['figures'])}{found['space']}{shown.sign}"


def _refused_again(found: re.Match) -> str:
    shown = quantity(found["unit"])
    given = found["given"] if found["given"].startswith("“") else _on_page(shown, found["given"])
    right = _refigured(shown, found["right"])
    return f", {shown.sign}: {given} is not possible; it should be {right}"


def _refigured(shown: Quantity, words: str) -> str:
    return re.sub(_FIGURE, lambda one: _on_page(shown, one[0]), words)


def _decimal(exact: Fraction) -> Decimal:
    return Decimal(exact.numerator) / Decimal(exact.denominator)


def _plain(exact: Fraction, comma: str = "") -> str:
    """Digits without needless noughts: 1,234.5."""
    text = f"{_decimal(exact):{comma}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
