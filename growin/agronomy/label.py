"""What a label prints, in elements: g in each kilogram or litre, exact to the last digit.

A label is a mapping of line codes (:data:`LINES`) to the per cent printed. Sums are done
in decimals and end in whole milligrams per square metre, so that a ledger adds up
exactly on every database. Amounts are g for solids and ml for liquids, areas dm².
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from fractions import Fraction
from typing import NamedTuple

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.nutrition import HIGHEST_PRINTED_PERCENT, OXIDES

SOLID, LIQUID = "solid", "liquid"
BY_WEIGHT, BY_VOLUME = "w/w", "w/v"
#: Forms printed to one decimal each may add up to this much over the printed total.
ROUNDING_PERCENT = Decimal("0.3")
#: Density of any liquid feed, kg/l: heavier than petrol, lighter than bromine (our judgement).
DENSITY_KG_L = (Decimal("0.7"), Decimal("3"))
SQUARE_DECIMETRES_PER_M2 = 100

Percent = Decimal | int | str | float


@dataclass(frozen=True)
class Line:
    """One line a label may print: its words, the element it counts as, the share that is element."""

    code: str
    words: str
    element: str
    share: Decimal = Decimal(1)


def _lines(*lines: Line) -> dict[str, Line]:
    return {line.code: line for line in lines}


#: Every line this tool reads off a label, in the order labels print them.
LINES: dict[str, Line] = _lines(
    Line("N_total", "total nitrogen (N)", "N"),
    Line("N_nitrate", "nitrate nitrogen", "N"),
    Line("N_ammonium", "ammonium nitrogen", "N"),
    Line("N_urea", "urea nitrogen", "N"),
    Line("N_slow", "slow-release nitrogen", "N"),
    *(
        Line(oxide, f"{words} ({oxide})", *OXIDES[oxide])
        for oxide, words in {
            "P2O5": "phosphate",
            "K2O": "potash",
            "CaO": "calcium oxide",
            "MgO": "magnesium oxide",
            "SO3": "sulphur trioxide",
        }.items()
    ),
    Line("P", "phosphorus (P)", "P"),
    Line("K", "potassium (K)", "K"),
    Line("Ca", "calcium (Ca)", "Ca"),
    Line("Mg", "magnesium (Mg)", "Mg"),
    Line("S", "sulphur (S)", "S"),
    Line("Fe", "iron (Fe)", "Fe"),
    Line("Mn", "manganese (Mn)", "Mn"),
    Line("Cu", "copper (Cu)", "Cu"),
    Line("Zn", "zinc (Zn)", "Zn"),
    Line("B", "boron (B)", "B"),
    Line("Mo", "molybdenum (Mo)", "Mo"),
)
ELEMENTS: tuple[str, ...] = tuple(dict.fromkeys(line.element for line in LINES.values()))
QUICK_FORMS = ("N_nitrate", "N_ammonium", "N_urea")
NITROGEN_FORMS = (*QUICK_FORMS, "N_slow")


class NitrogenRelease(NamedTuple):
    """Nitrogen that works at once and nitrogen held back, in % as the label prints them."""

    quick_percent: Decimal
    slow_percent: Decimal


def read_label(lines: Mapping[str, Percent]) -> dict[str, Decimal]:
    """The printed lines as exact decimals, checked one by one and together.

    Floats are read as the shortest decimal that means them (2.4 is 2.4).

    Raises ImpossibleValue for an unknown line, a share outside 0 to 100 (SO3: 250), an
    element printed both as oxide and as element, or nitrogen forms above the total.
    """
    read = {code: _read_percent(code, printed) for code, printed in lines.items()}
    _refuse_twice(read)
    _refuse_forms_above_total(read)
    return read


def contents(
    lines: Mapping[str, Percent],
    *,
    form: str = SOLID,
    basis: str = BY_WEIGHT,
    density_kg_l: Percent | None = None,
) -> dict[str, Decimal]:
    """Elements in the product: g per kg of a solid, g per litre of a liquid.

    Parameters
    ----------
    lines : per cent printed by line code; nothing may stand for an unprinted line.
    form : "solid" or "liquid".
    basis : "w/w" (g in 100 g) or, for liquids only, "w/v" (g in 100 ml).
    density_kg_l : 0.7 to 3, needed for a liquid labelled w/w; with w/v it only widens the
        check that the parts fit.

    Returns
    -------
    dict : by element, only those the label prints; exact.

    Raises
    ------
    ImpossibleValue
        For what :func:`read_label` refuses, for parts that add up to more than the whole,
        and for a form, basis or density that does not go together.

    Source: Regulation (EC) 2003/2003 for the declaration; Purdue University Extension for
    the use of the density.
    """
    density = _require_density(form, basis, density_kg_l)
    read = read_label(lines)
    _refuse_more_than_whole(read, density if density and basis == BY_VOLUME else Decimal(1))
    grams_per_percent = 10 * (density if form == LIQUID and basis == BY_WEIGHT else Decimal(1))
    return {element: share * grams_per_percent for element, share in _element_percents(read).items()}


def nitrogen_percent(lines: Mapping[str, Percent]) -> Decimal:
    """Nitrogen of the label, %: the printed total, or the sum of the forms where that is missing."""
    read = read_label(lines)
    return read.get("N_total", _sum(read, NITROGEN_FORMS))


def nitrogen_release(lines: Mapping[str, Percent]) -> NitrogenRelease:
    """Quick and slow nitrogen of the label, %.

    Only what the label calls slow counts as slow; nitrogen whose form is not printed
    counts as quick, the side on which a dose errs safely (our judgement).
    """
    total, slow = nitrogen_percent(lines), read_label(lines).get("N_slow", Decimal(0))
    return NitrogenRelease(max(total - slow, Decimal(0)), min(slow, total))


def nutrient_mg_m2(amount: int, area_dm2: int, content: Decimal | int | Fraction) -> int:
    """Element laid on each square metre, whole mg/m², exact, a half rounded up.

    Parameters
    ----------
    amount : at least 0; g of a solid or ml of a liquid, over the whole area.
    area_dm2 : at least 1 (100 dm² = 1 m²).
    content : at least 0; g per kg or g per litre from :func:`contents`, that is mg per g or ml.

    Raises ImpossibleValue outside these ranges.
    """
    if amount < 0:
        raise ImpossibleValue("amount of product, g or ml", amount, "at least 0")
    if area_dm2 < 1:
        raise ImpossibleValue("area, dm²", area_dm2, "at least 1")
    if content < 0:
        raise ImpossibleValue("content, g per kg or litre", content, "at least 0")
    return half_up(Fraction(amount) * Fraction(content) * SQUARE_DECIMETRES_PER_M2 / area_dm2)


def nutrients_mg_m2(amount: int, area_dm2: int, by_element: Mapping[str, Decimal]) -> dict[str, int]:
    """Every element of a product laid on each square metre, whole mg/m²; see :func:`nutrient_mg_m2`."""
    return {element: nutrient_mg_m2(amount, area_dm2, content) for element, content in by_element.items()}


def half_up(number: Fraction) -> int:
    """The nearest whole number of something not below zero, a half going up."""
    return (2 * number.numerator + number.denominator) // (2 * number.denominator)


def _read_percent(code: str, printed: Percent) -> Decimal:
    if code not in LINES:
        raise ImpossibleValue("line of the label", code, f"one of {', '.join(LINES)}")
    most = Decimal(str(HIGHEST_PRINTED_PERCENT.get(code, 100)))
    try:
        percent = Decimal(str(printed))
    except InvalidOperation:
        raise ImpossibleValue(LINES[code].words, printed, "a number of per cent") from None
    if not (percent.is_finite() and 0 <= percent <= most):
        raise ImpossibleValue(f"{LINES[code].words}, %", printed, f"from 0 to {most}")
    return percent


def _refuse_twice(read: Mapping[str, Decimal]) -> None:
    for oxide, (element, _) in OXIDES.items():
        if oxide in read and element in read:
            raise ImpossibleValue(
                f"{element} on the label", f"{oxide} and {element}", "only one of the two, as printed"
            )


def _refuse_forms_above_total(read: Mapping[str, Decimal]) -> None:
    forms = _sum(read, NITROGEN_FORMS)
    if "N_total" in read and forms > read["N_total"] + ROUNDING_PERCENT:
        raise ImpossibleValue("forms of nitrogen, %", forms, f"at most the total of {read['N_total']}")


def _refuse_more_than_whole(read: Mapping[str, Decimal], whole: Decimal) -> None:
    parts = sum(_parts(read).values(), Decimal(0))
    if parts > 100 * whole:
        raise ImpossibleValue("parts of the label together, %", parts, f"at most {100 * whole:f}")


def _parts(read: Mapping[str, Decimal]) -> dict[str, Decimal]:
    """What takes up room: nitrogen once, oxides as printed, sulphur always as the element."""
    parts = {code: share for code, share in read.items() if LINES[code].element not in ("N", "S")}
    return parts | {e: share for e, share in _element_percents(read).items() if e in ("N", "S")}


def _element_percents(read: Mapping[str, Decimal]) -> dict[str, Decimal]:
    others = {
        LINES[code].element: share * LINES[code].share
        for code, share in read.items()
        if LINES[code].element != "N"
    }
    if not any(LINES[code].element == "N" for code in read):
        return others
    return {"N": read.get("N_total", _sum(read, NITROGEN_FORMS))} | others


def _sum(read: Mapping[str, Decimal], codes: tuple[str, ...]) -> Decimal:
    return sum((read[code] for code in codes if code in read), Decimal(0))


def _require_density(form: str, basis: str, density_kg_l: Percent | None) -> Decimal | None:
    if form not in (SOLID, LIQUID):
        raise ImpossibleValue("form of the product", form, f"{SOLID} or {LIQUID}")
    if basis not in (BY_WEIGHT, BY_VOLUME):
        raise ImpossibleValue("basis of the label", basis, f"{BY_WEIGHT} or {BY_VOLUME}")
    if form == SOLID and basis == BY_VOLUME:
        raise ImpossibleValue("basis of a solid", basis, BY_WEIGHT)
    if density_kg_l is None:
        if form == LIQUID and basis == BY_WEIGHT:
            raise ImpossibleValue("density of a liquid labelled w/w, kg/l", "nothing", "given")
        return None
    return _read_density(density_kg_l)


def _read_density(density_kg_l: Percent) -> Decimal:
    low, high = DENSITY_KG_L
    try:
        density = Decimal(str(density_kg_l))
    except InvalidOperation:
        raise ImpossibleValue("density, kg/l", density_kg_l, f"from {low} to {high}") from None
    if not (density.is_finite() and low <= density <= high):
        raise ImpossibleValue("density, kg/l", density_kg_l, f"from {low} to {high}")
    return density
