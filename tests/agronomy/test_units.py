"""Conversions, against pint and the definitions."""

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.units import UNITS, convert, convert_exactly, unit_named, units_of

REGISTRY = pint.UnitRegistry()
IN_PINT = {
    "m2": "m^2", "ha": "hectare", "ft2": "ft^2", "acre": "4046.8564224 m^2",
    "mm": "mm", "cm": "cm", "in": "inch",
    "m": "m", "ft": "ft", "yd": "yard", "g_m2": "g/m^2", "kg_ha": "kg/hectare",
    "lb_1000ft2": "lb/(1000 ft^2)",
    "lb_acre": "lb/(4046.8564224 m^2)", "kg_m2": "kg/m^2", "t_ha": "metric_ton/hectare",
    "sand_lb_1000ft2": "lb/(1000 ft^2)", "kg": "kg", "g": "g", "t": "metric_ton", "lb": "lb", "oz": "oz",
    "short_ton": "short_ton", "l": "l", "ml": "ml", "gal": "gallon", "fl_oz": "fluid_ounce", "m3": "m^3",
    "ft3": "ft^3", "yd3": "yard^3", "l_ha": "l/hectare", "gal_acre": "gallon/(4046.8564224 m^2)",
    "gal_1000ft2": "gallon/(1000 ft^2)", "fl_oz_1000ft2": "fluid_ounce/(1000 ft^2)", "l_min": "l/min",
    "gal_min": "gallon/min", "m_s": "m/s", "km_h": "km/h", "mph": "mile/h", "kn": "knot",
    "c": "degC", "f": "degF", "mm_h": "mm/h", "in_h": "inch/h",
    "c_days": "delta_degC*day", "f_days": "delta_degF*day",
    "ml_m2": "ml/m^2", "l_m2": "l/m^2", "water_m3": "m^3", "water_gal": "gallon", "kg_l": "kg/l",
    "lb_gal": "lb/gallon", "c_apart": "delta_degC", "f_apart": "delta_degF",
}  # fmt: skip
PAIRS = [(one.key, other.key) for one in UNITS.values() for other in units_of(one.quantity)]


def test_every_unit_is_checked_against_pint():
    assert set(IN_PINT) == set(UNITS)


@pytest.mark.parametrize(("unit", "wanted"), PAIRS)
def test_conversions_are_those_of_pint(unit, wanted):
    if unit in ("c", "f"):
        theirs = REGISTRY.Quantity(12.5, IN_PINT[unit]).m_as(IN_PINT[wanted])
    else:
        theirs = (
            12.5 * REGISTRY.parse_expression(IN_PINT[unit]) / REGISTRY.parse_expression(IN_PINT[wanted])
        ).m_as("")
    assert convert(12.5, unit, wanted) == pytest.approx(theirs, rel=1e-9)


@given(st.sampled_from(PAIRS), st.decimals(-1000, 1000, places=4))
def test_there_and_back_is_exact(pair, value):
    unit, wanted = pair
    assert convert_exactly(convert_exactly(value, unit, wanted), wanted, unit) == Fraction(value)


def test_the_printed_identities_of_the_trade():
    assert convert(1, "lb_1000ft2", "g_m2") == pytest.approx(4.88243, abs=5e-6)
    assert convert(1, "lb_1000ft2", "kg_ha") == pytest.approx(48.8, abs=0.05)
    assert convert_exactly(1, "acre", "ft2") == 43_560
    assert convert_exactly(Decimal("68"), "f", "c") == 20
    assert convert_exactly(1, "short_ton", "lb") == 2000


def test_the_first_unit_of_each_quantity_is_the_stored_one():
    quantities = {unit.quantity for unit in UNITS.values()}
    assert all((units_of(one)[0].factor, units_of(one)[0].offset) == (1, 0) for one in quantities)


def test_what_measures_different_things_is_refused():
    with pytest.raises(ImpossibleValue) as told:
        convert(1, "mm", "kg")
    assert str(told.value) == "unit: kg is not possible; it should be a unit of depth, as mm is."


@pytest.mark.parametrize(
    "refused",
    [lambda: unit_named("furlong"), lambda: convert(float("inf"), "mm", "in"), lambda: convert(1, "mm", "x")],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
