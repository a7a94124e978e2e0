"""Labels as printed become elements, exactly."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.label import (
    LINES,
    contents,
    half_up,
    nitrogen_percent,
    nitrogen_release,
    nutrient_mg_m2,
    nutrients_mg_m2,
)

GRANULE = {
    "N_total": "12",
    "N_ammonium": "4.5",
    "N_urea": "2.5",
    "N_slow": "5",
    "P2O5": 5,
    "K2O": "10",
    "MgO": 2,
}


def test_a_granular_label_in_elements_for_each_kilogram():
    assert contents(GRANULE) == {
        "N": Decimal("120"),
        "P": Decimal("21.8215"),
        "K": Decimal("83.015"),
        "Mg": Decimal("12.0608"),
    }


def test_elements_printed_as_such_are_taken_as_they_are():
    assert contents({"Fe": "6", "Mn": "0.5", "K": "3"}) == {
        "Fe": Decimal("60"),
        "Mn": Decimal("5.0"),
        "K": Decimal("30"),
    }


def test_a_liquid_by_weight_needs_its_density_and_one_by_volume_does_not():
    # Purdue University Extension: 18 % w/v holds 180 g in a litre; 20 % w/w at 1.25 kg/l holds 250 g
    assert contents({"N_total": 18}, form="liquid", basis="w/v") == {"N": Decimal("180")}
    assert contents({"N_total": 20}, form="liquid", basis="w/w", density_kg_l="1.25") == {
        "N": Decimal("250.00")
    }


def test_a_heavy_liquid_may_hold_more_than_its_volume_in_water():
    rich = {"P2O5": 55, "K2O": 50}
    assert set(contents(rich, form="liquid", basis="w/v", density_kg_l="1.6")) == {"P", "K"}
    with pytest.raises(ImpossibleValue):
        contents(rich, form="liquid", basis="w/v")


def test_nitrogen_is_the_total_or_the_sum_of_its_forms():
    assert nitrogen_percent(GRANULE) == Decimal("12")
    assert nitrogen_percent({"N_nitrate": "5.5", "N_urea": "4"}) == Decimal("9.5")
    assert nitrogen_percent({"K2O": 50}) == 0


def test_only_what_is_called_slow_is_slow():
    assert nitrogen_release(GRANULE) == (Decimal("7"), Decimal("5"))
    assert nitrogen_release({"N_total": 20, "N_ammonium": 6}) == (Decimal("20"), Decimal("0"))


def test_pure_sulphur_printed_as_oxide_fits_into_its_bag():
    assert contents({"SO3": 225}) == {"S": Decimal("901.03500")}


def test_floats_are_read_as_the_decimals_they_mean():
    assert contents({"Fe": 0.1}) == {"Fe": Decimal("1.0")}


@pytest.mark.parametrize(
    ("lines", "sentence"),
    [
        (
            {"N_total": 60, "K2O": 41},
            "parts of the label together, %: 101 is not possible; it should be at most 100.",
        ),
        (
            {"N_total": 12, "N_urea": 12, "N_slow": 2},
            "forms of nitrogen, %: 14 is not possible; it should be at most the total of 12.",
        ),
        (
            {"P2O5": 5, "P": 2},
            "P on the label: P2O5 and P is not possible; it should be only one of the two, as printed.",
        ),
        ({"Fe": -1}, "iron (Fe), %: -1 is not possible; it should be from 0 to 100."),
        ({"Fe": "NaN"}, "iron (Fe), %: NaN is not possible; it should be from 0 to 100."),
        ({"Fe": "much"}, "iron (Fe): much is not possible; it should be a number of per cent."),
        ({"Au": 1}, f"line of the label: Au is not possible; it should be one of {', '.join(LINES)}."),
    ],
)
def test_a_label_that_cannot_be_is_refused(lines, sentence):
    with pytest.raises(ImpossibleValue) as told:
        contents(lines)
    assert str(told.value) == sentence


@pytest.mark.parametrize(
    "kind",
    [
        {"form": "gas"},
        {"basis": "v/v"},
        {"form": "solid", "basis": "w/v"},
        {"form": "liquid", "basis": "w/w"},
        {"form": "liquid", "basis": "w/w", "density_kg_l": 0},
        {"form": "liquid", "basis": "w/w", "density_kg_l": "heavy"},
    ],
)
def test_form_basis_and_density_must_go_together(kind):
    with pytest.raises(ImpossibleValue):
        contents({"N_total": 10}, **kind)


def test_forms_rounded_on_the_label_may_pass_the_total_by_a_hair():
    assert contents({"N_total": "12", "N_urea": "8.1", "N_nitrate": "4.1"}) == {"N": Decimal("120")}


def test_a_bag_on_a_hectare_in_whole_milligrams():
    # Printed: a 25 kg bag of 24-5-8 brings 6 kg N and 1.25 kg P2O5 (Reiter, Virginia Cooperative Extension)
    laid = nutrients_mg_m2(25_000, 1_000_000, contents({"N_total": 24, "P2O5": 5, "K2O": 8}))
    assert laid == {"N": 600, "P": 55, "K": 166}


@pytest.mark.parametrize(("number", "whole"), [("0.5", 1), ("1.5", 2), ("2.4999999", 2), ("0", 0), ("7", 7)])
def test_a_half_goes_up(number, whole):
    assert half_up(Fraction(number)) == whole


@given(st.integers(0, 10**7), st.integers(1, 10**7), st.decimals(0, 1000, places=5))
def test_whole_milligrams_are_never_more_than_half_a_milligram_off(amount, area_dm2, content):
    exact = Fraction(amount) * Fraction(content) * 100 / area_dm2
    assert -Fraction(1, 2) < nutrient_mg_m2(amount, area_dm2, content) - exact <= Fraction(1, 2)


@given(st.integers(0, 10**6), st.integers(1, 100))
def test_two_equal_halves_of_a_green_get_the_same(amount, area_dm2):
    assert nutrient_mg_m2(2 * amount, 2 * area_dm2, Decimal("46")) == nutrient_mg_m2(
        amount, area_dm2, Decimal("46")
    )


@pytest.mark.parametrize("numbers", [(-1, 1, 1), (1, 0, 1), (1, 1, -1)])
def test_impossible_amounts_and_areas_are_refused(numbers):
    with pytest.raises(ImpossibleValue):
        nutrient_mg_m2(*numbers)
