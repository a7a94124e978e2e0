"""Rates, products, oxides, what soil and water hold."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.nutrition import (
    OXIDES,
    Elements,
    WaterLoad,
    element_percent,
    liquid_product,
    nutrient_product,
    nutrient_requirement,
    nutrients_supplied,
    oxide_to_element,
    water_nutrient_load,
)

# CIAAW standard atomic weights, abridged to five figures, 2021
WEIGHTS = {"O": 15.999, "P": 30.974, "K": 39.098, "Mg": 24.305, "Ca": 40.078, "S": 32.06}
FORMULAE = {
    "P2O5": ("P", 2, 5),
    "K2O": ("K", 2, 1),
    "MgO": ("Mg", 1, 1),
    "CaO": ("Ca", 1, 1),
    "SO3": ("S", 1, 3),
}
percent = st.floats(0.1, 100)
amount = st.floats(0, 1e4)


@pytest.mark.parametrize("oxide", OXIDES)
def test_shares_of_elements_follow_from_atomic_weights(oxide):
    element, atoms, oxygens = FORMULAE[oxide]
    mass = atoms * WEIGHTS[element]
    assert OXIDES[oxide][0] == element
    assert float(OXIDES[oxide][1]) == pytest.approx(mass / (mass + oxygens * WEIGHTS["O"]), abs=5e-5)


@given(percent, amount, st.floats(1, 1e5))
def test_the_product_carries_the_rate_it_was_reckoned_for(n_percent, rate_g_m2, area_m2):
    product = nutrient_product(n_percent, rate_g_m2, area_m2)
    supplied = nutrients_supplied(product.product_kg, area_m2, n_percent, 0, 0)
    assert supplied.n_kg_ha == pytest.approx(rate_g_m2 * 10)


@given(percent, st.floats(0.7, 2), amount)
def test_litres_hold_the_rate_by_weight_and_density(n_percent, density_kg_l, rate_g_m2):
    litres = liquid_product(n_percent, density_kg_l, rate_g_m2, 10_000)
    assert litres.product_l == pytest.approx(litres.product_l_ha)
    assert litres.product_l_ha * density_kg_l * n_percent / 100 == pytest.approx(rate_g_m2 * 10)


@given(st.lists(st.floats(0, 300), min_size=2, max_size=2), st.floats(0, 50))
def test_a_richer_soil_never_needs_more(tests_ppm, use_g_m2):
    poorer, richer = sorted(tests_ppm)
    needs = [nutrient_requirement(use_g_m2, 37, test, 100, 1500) for test in (poorer, richer)]
    assert needs[0] >= needs[1] >= 0


def test_oxides_not_printed_stay_unknown():
    assert oxide_to_element(k2o_percent=100) == Elements(k_percent=pytest.approx(83.015))


def test_pure_sulphur_may_be_printed_as_its_oxide():
    assert element_percent("SO3", 249.7) == pytest.approx(99.995, abs=0.001)


def test_a_millimetre_of_water_is_a_litre_on_each_square_metre():
    assert water_nutrient_load(1, 1000) == WaterLoad(1.0, 10.0)


@pytest.mark.parametrize(
    ("refused", "sentence"),
    [
        (lambda: nutrient_product(0, 1, 1), "analysis, %: 0 is not possible; it should be above 0."),
        (
            lambda: nutrient_product(101, 1, 1),
            "analysis, %: 101 is not possible; it should be from 0 to 100.",
        ),
        (
            lambda: nutrient_product(20, -1, 1),
            "rate of nutrient, g/m²: -1 is not possible; it should be at least 0.",
        ),
        (lambda: liquid_product(20, 0, 1, 1), "density, kg/l: 0 is not possible; it should be above 0."),
        (lambda: nutrients_supplied(1, 0, 1, 1, 1), "area, m²: 0 is not possible; it should be above 0."),
        (
            lambda: oxide_to_element(p2o5_percent=120),
            "P2O5, %: 120 is not possible; it should be from 0 to 100.",
        ),
        (
            lambda: element_percent("N2O", 1),
            "oxide on the label: N2O is not possible; it should be one of P2O5, K2O, MgO, CaO, SO3.",
        ),
        (
            lambda: nutrient_requirement(1, 1, 1, 100, 3000),
            "bulk density, kg/m³: 3000 is not possible; it should be from 0 to 2650.",
        ),
        (
            lambda: water_nutrient_load(-1, 1),
            "depth of water, mm: -1 is not possible; it should be at least 0.",
        ),
    ],
)
def test_the_impossible_is_refused_with_its_value(refused, sentence):
    with pytest.raises(ImpossibleValue) as told:
        refused()
    assert str(told.value) == sentence
