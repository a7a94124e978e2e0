"""Amounts of a product: typed as people say them, kept as whole g or ml over the whole area.

A spreader is set in g/m², a tank is mixed in l/ha, a bag is emptied in kg, sand is thought of
in mm. All four become one whole number, exact to the last digit, so that a ledger adds up.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.label import SQUARE_DECIMETRES_PER_M2, half_up
from growin.agronomy.plain_words import amount as figure

IN_ALL, PER_M2, BULK_PER_M2, PER_HA, DEPTH_MM = "all", "m2", "kg_m2", "ha", "mm"
#: How an amount may be typed: words for a product in g, words for one in ml.
WAYS: Mapping[str, tuple[str, str]] = {
    IN_ALL: ("kg in all", "litres in all"),
    PER_M2: ("g/m²", "ml/m²"),
    BULK_PER_M2: ("kg/m²", "l/m²"),
    PER_HA: ("kg/ha", "l/ha"),
    DEPTH_MM: ("mm of sand", "mm of sand"),
}
SQUARE_DECIMETRES_PER_HA = 1_000_000
#: More than this on one square metre cannot be, g or ml (our judgement: 50 t/ha; sand 60 mm).
MOST_PER_M2 = 5_000
MOST_BULK_PER_M2 = 100_000
#: Where no area is known, more than this in one entry cannot be, g or ml: 1,000 t.
MOST_IN_ALL = 1_000_000_000

WITHOUT_BULK_DENSITY = "of a sand whose label gives one, or in kg"


def whole_amount(
    typed: Decimal | int, way: str, area_dm2: int, bulk_density_t_m3: Decimal | float | None = None
) -> int:
    """Product over the whole area, whole g or ml, a half rounded up.

    Parameters
    ----------
    typed : at least 0, in the unit of ``way``.
    way : "all" (kg or l), "m2" (g or ml on each m²), "kg_m2", "ha" (kg or l on each ha), "mm" (of sand).
    area_dm2 : of all greens together; nothing is read of it when ``way`` is "all".
    bulk_density_t_m3 : above 0, only for a depth.

    Raises
    ------
    ImpossibleValue
        For an unknown way, a rate without an area, a depth without a bulk density, or less than 0.
    """
    if typed < 0:
        raise ImpossibleValue("amount of product", typed, "at least 0")
    return half_up(Fraction(typed) * _per_typed(way, area_dm2, bulk_density_t_m3))


def _per_typed(way: str, area_dm2: int, bulk_density_t_m3) -> Fraction:
    """Whole units of product for each 1 that was typed."""
    if way == IN_ALL:
        return Fraction(1000)
    if way not in WAYS:
        raise ImpossibleValue("way of giving an amount", way, f"one of {', '.join(WAYS)}")
    if not area_dm2:
        raise ImpossibleValue("area of the green", "nothing", "known before a rate can be worked out")
    if way == PER_HA:
        return Fraction(1000 * area_dm2, SQUARE_DECIMETRES_PER_HA)
    if way in (PER_M2, BULK_PER_M2):
        return Fraction(area_dm2 * (1 if way == PER_M2 else 1000), SQUARE_DECIMETRES_PER_M2)
    if not bulk_density_t_m3:
        raise ImpossibleValue("depth", "one of a product without a bulk density", WITHOUT_BULK_DENSITY)
    return Fraction(Decimal(str(bulk_density_t_m3))) * 1000 * Fraction(area_dm2, SQUARE_DECIMETRES_PER_M2)


def require_possible(what: str, amount: int, area_dm2: int, *, is_bulk: bool = False) -> None:
    """Refuse an amount that nobody can have put down; ``is_bulk`` for sand and the like.

    Raises
    ------
    ImpossibleValue
        For nothing at all, or more than a green can carry.
    """
    if amount < 1:
        raise ImpossibleValue(f"amount of {what}", amount, "more than nothing")
    most = (MOST_BULK_PER_M2 if is_bulk else MOST_PER_M2) * area_dm2 // SQUARE_DECIMETRES_PER_M2
    if amount > (most or MOST_IN_ALL):
        right = f"at most {figure((most or MOST_IN_ALL) / 1000, 'kg or litres', 0)} here"
        raise ImpossibleValue(f"amount of {what}", figure(amount / 1000, "kg or litres"), right)


def in_words(amount: int, unit: str) -> str:
    """ "22.5 kg", "850 g", "1.2 litres", "40 ml"; ``unit`` is "g" or "ml"."""
    if amount < 1000:
        return f"{amount} {unit}"
    litres = "litre" if amount == 1000 else "litres"
    return figure(amount / 1000, "kg" if unit == "g" else litres, 2)


def shares(amount: int, areas_dm2: Sequence[int]) -> list[int]:
    """What each green has of an amount over all of them, by area; whole g or ml that add up to it.

    The last units go where most was cut off (largest remainder). Raises ImpossibleValue where an area is
    not known.
    """
    if not areas_dm2 or not all(areas_dm2):
        raise ImpossibleValue("area of a green", "nothing", "known before its share can be worked out")
    whole = sum(areas_dm2)
    given = [amount * area // whole for area in areas_dm2]
    by_remainder = sorted(range(len(given)), key=lambda n: -(amount * areas_dm2[n] % whole))
    for n in by_remainder[: amount - sum(given)]:
        given[n] += 1
    return given


def shares_in_words(amount: int, unit: str, greens: Sequence[tuple[str, int]]) -> str:
    """ "Fourth 27 kg, Seventh 22.5 kg; 49.5 kg in all", by name and area in dm²; an unknown area is said."""
    total, unknown = f"{in_words(amount, unit)} in all", [name for name, area in greens if not area]
    if unknown:
        return f"{total}; the area of {' and '.join(unknown)} is not known, so no share is worked out"
    each = shares(amount, [area for _, area in greens])
    said = (f"{name} {in_words(part, unit)}" for (name, _), part in zip(greens, each, strict=True))
    return f"{', '.join(said)}; {total}"


def rate_in_words(amount: int, unit: str, area_dm2: int) -> str:
    """ "50 g/m² (500 kg/ha)", or "" where the area is not known."""
    if not area_dm2:
        return ""
    per_m2 = amount * SQUARE_DECIMETRES_PER_M2 / area_dm2
    big, small = ("kg", "g") if unit == "g" else ("l", "ml")
    if per_m2 >= 1000:
        bulk = "t" if unit == "g" else "m³"
        return f"{figure(per_m2 / 1000, big, 2)}/m² ({figure(per_m2 / 100, bulk, 1)}/ha)"
    return f"{figure(per_m2, small, 2)}/m² ({figure(per_m2 * 10, big, 1)}/ha)"


def depth_in_words(amount_g: int, area_dm2: int, bulk_density_t_m3: Decimal | float | None) -> str:
    """Depth of sand, "0.35 mm", or "" where area or bulk density is not known."""
    if not area_dm2 or not bulk_density_t_m3:
        return ""
    kg_m2 = amount_g * SQUARE_DECIMETRES_PER_M2 / area_dm2 / 1000
    return figure(kg_m2 / float(bulk_density_t_m3), "mm", 2)
