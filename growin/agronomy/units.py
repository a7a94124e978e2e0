"""Exact conversions between what is stored and what a club may wish to read.

Every factor is an exact fraction of its stored unit, from the international yard and
pound (1 ft = 0.3048 m, 1 lb = 0.45359237 kg) and the US gallon of 231 cubic inches.
"""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from growin.agronomy.impossible import ImpossibleValue, require_range

FOOT_M = Fraction("0.3048")  # international yard and pound agreement, 1959
POUND_KG = Fraction("0.45359237")  # international yard and pound agreement, 1959
GALLON_L = Fraction("3.785411784")  # NIST Handbook 44, Appendix C
ACRE_M2 = Fraction("4046.8564224")  # 43 560 square feet
MILE_M = 5280 * FOOT_M
THOUSAND_FT2_M2 = 1000 * FOOT_M**2


@dataclass(frozen=True)
class Unit:
    """One unit: what it measures, its sign on screen, and how many stored units it is.

    ``stored`` = value x ``factor`` + ``offset``; the offset is only for temperatures.
    """

    key: str
    quantity: str
    sign: str
    factor: Fraction = Fraction(1)
    offset: Fraction = Fraction(0)


def _units(*units: Unit) -> dict[str, Unit]:
    return {unit.key: unit for unit in units}


#: Units by key; the first of each quantity is the stored one.
UNITS: dict[str, Unit] = _units(
    Unit("m2", "area", "m²"),
    Unit("ha", "area", "ha", Fraction(10_000)),
    Unit("ft2", "area", "ft²", FOOT_M**2),
    Unit("acre", "area", "acre", ACRE_M2),
    Unit("mm", "depth", "mm"),
    Unit("cm", "depth", "cm", Fraction(10)),
    Unit("in", "depth", "in", FOOT_M * 1000 / 12),
    Unit("m", "distance", "m"),
    Unit("ft", "distance", "ft", FOOT_M),
    Unit("yd", "distance", "yd", 3 * FOOT_M),
    Unit("g_m2", "rate", "g/m²"),
    Unit("kg_ha", "rate", "kg/ha", Fraction(1, 10)),
    Unit("lb_1000ft2", "rate", "lb/1,000 ft²", POUND_KG * 1000 / THOUSAND_FT2_M2),
    Unit("lb_acre", "rate", "lb/acre", POUND_KG * 1000 / ACRE_M2),
    Unit("kg_m2", "sand", "kg/m²"),
    Unit("t_ha", "sand", "t/ha", Fraction(1, 10)),
    Unit("sand_lb_1000ft2", "sand", "lb/1,000 ft²", POUND_KG / THOUSAND_FT2_M2),
    Unit("kg", "mass", "kg"),
    Unit("g", "mass", "g", Fraction(1, 1000)),
    Unit("t", "mass", "t", Fraction(1000)),
    Unit("lb", "mass", "lb", POUND_KG),
    Unit("oz", "mass", "oz", POUND_KG / 16),
    Unit("short_ton", "mass", "short ton", 2000 * POUND_KG),
    Unit("l", "liquid", "l"),
    Unit("ml", "liquid", "ml", Fraction(1, 1000)),
    Unit("gal", "liquid", "US gal", GALLON_L),
    Unit("fl_oz", "liquid", "US fl oz", GALLON_L / 128),
    Unit("m3", "volume", "m³"),
    Unit("ft3", "volume", "ft³", FOOT_M**3),
    Unit("yd3", "volume", "yd³", 27 * FOOT_M**3),
    Unit("l_ha", "spray", "l/ha"),
    Unit("gal_acre", "spray", "US gal/acre", GALLON_L * 10_000 / ACRE_M2),
    Unit("gal_1000ft2", "spray", "US gal/1,000 ft²", GALLON_L * 10_000 / THOUSAND_FT2_M2),
    Unit("ml_m2", "spray", "ml/m²", Fraction(10)),
    Unit("l_m2", "spray", "l/m²", Fraction(10_000)),
    Unit("fl_oz_1000ft2", "spray", "US fl oz/1,000 ft²", GALLON_L / 128 * 10_000 / THOUSAND_FT2_M2),
    Unit("water_m3", "water", "m³"),
    Unit("water_gal", "water", "US gal", GALLON_L / 1000),
    Unit("kg_l", "density", "kg/l"),
    Unit("lb_gal", "density", "lb/US gal", POUND_KG / GALLON_L),
    Unit("l_min", "flow", "l/min"),
    Unit("gal_min", "flow", "US gal/min", GALLON_L),
    Unit("m_s", "speed", "m/s"),
    Unit("km_h", "speed", "km/h", Fraction(10, 36)),
    Unit("mph", "speed", "mph", MILE_M / 3600),
    Unit("kn", "speed", "knots", Fraction(1852, 3600)),  # international nautical mile, 1929
    Unit("c", "temperature", "°C"),
    Unit("f", "temperature", "°F", Fraction(5, 9), Fraction(-160, 9)),
    Unit("c_apart", "temperature apart", "°C"),
    Unit("f_apart", "temperature apart", "°F", Fraction(5, 9)),
    Unit("mm_h", "infiltration", "mm/h"),
    Unit("in_h", "infiltration", "in/h", FOOT_M * 1000 / 12),
    Unit("c_days", "degree days", "°C·days"),
    Unit("f_days", "degree days", "°F·days", Fraction(5, 9)),
)

Number = float | int | Decimal | Fraction


def unit_named(key: str) -> Unit:
    """The unit of that key.

    Raises ImpossibleValue naming the units there are.
    """
    if key not in UNITS:
        raise ImpossibleValue("unit", key, f"one of {', '.join(UNITS)}")
    return UNITS[key]


def units_of(quantity: str) -> tuple[Unit, ...]:
    """Units of a quantity, the stored one first; empty for a quantity nobody measures."""
    return tuple(unit for unit in UNITS.values() if unit.quantity == quantity)


def convert_exactly(value: Decimal | Fraction | int, unit: str, wanted: str) -> Fraction:
    """A value in another unit of the same quantity, as an exact fraction.

    Raises ImpossibleValue for an unknown unit, or two that measure different things.
    Source: international yard and pound agreement, 1959; NIST Handbook 44, Appendix C.
    """
    given, other = unit_named(unit), unit_named(wanted)
    if given.quantity != other.quantity:
        raise ImpossibleValue("unit", other.sign, f"a unit of {given.quantity}, as {given.sign} is")
    return (Fraction(value) * given.factor + given.offset - other.offset) / other.factor


def convert(value: Number, unit: str, wanted: str) -> float:
    """A value in another unit of the same quantity; see :func:`convert_exactly`.

    Raises ImpossibleValue for an unknown unit, two that measure different things, or a
    value that is no finite number.
    """
    require_range("value to convert", float(value))
    return float(convert_exactly(Fraction(value), unit, wanted))
