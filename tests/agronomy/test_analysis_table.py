"""Sheets of soil and water, and what a soil test asks for (Woods, advisory articles 2014–2020; Mehlich-3)."""

import pytest

from growin.agronomy.analysis_table import SOIL, WATER, asked_by, check_figures, nitrogen_of_a_year
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.settings_table import default_values

SETTINGS = default_values()


def test_a_test_below_its_minimum_asks_for_the_shortfall_and_the_years_use():
    """K 25 ppm, minimum 37, 100 mm of 1,500 kg/m³ soil: 1.8 g/m² short, and 4 g/m² used with 80 kg N/ha."""
    (one,) = asked_by({"K": 25}, "mehlich_3", 100, 80, SETTINGS)
    assert (one.use_kg_ha, one.minimum_ppm) == (40, 37)
    assert one.kg_ha == pytest.approx(40 + 18)


def test_a_test_well_above_its_minimum_asks_for_nothing():
    (one,) = asked_by({"P": 200}, "mehlich_3", 100, 80, SETTINGS)
    assert one.kg_ha == 0


def test_another_extractant_is_shown_and_never_compared():
    assert asked_by({"P": 5, "K": 10}, "olsen", 100, 80, SETTINGS) == []


def test_what_has_no_share_of_nitrogen_asks_for_its_shortfall_alone():
    (one,) = asked_by({"S": 4}, "mehlich_3", 100, 80, SETTINGS)
    assert (one.use_kg_ha, one.kg_ha) == (0, pytest.approx(4.5))


@pytest.mark.parametrize(
    ("kind", "values", "sentence"),
    [
        (SOIL, {"pH": 14}, "pH: 14 is not possible; it should be from 3 to 10."),
        (SOIL, {"K": -1}, "potassium \\(K\\), ppm: -1 is not possible; it should be from 0 to 20,?000."),
        (WATER, {"K": 5}, "figure: “K” is not possible; it should be one of pH, ec_ds_m, HCO3"),
        (SOIL, {}, "sheet: nothing is not possible; it should be at least one figure."),
        ("air", {"pH": 6}, "analysis: “air” is not possible; it should be one of soil or of water."),
    ],
)
def test_what_cannot_be_is_refused(kind, values, sentence):
    with pytest.raises(ImpossibleValue, match=sentence):
        check_figures(kind, values)


def test_a_sheet_that_can_be_is_kept():
    check_figures(SOIL, {"pH": 6.4, "K": 60, "organic_percent": 3.2})
    check_figures(WATER, {"pH": 7.8, "HCO3": 240, "ec_ds_m": 0.6})


def test_the_nitrogen_of_a_year_is_the_middle_of_its_band():
    """Supplied turf 80 to 150 in its first season; fescue/bent 50 to 90 in play (trade practice)."""
    assert nitrogen_of_a_year("turf_supplied", "fescue/bent", True, SETTINGS) == 115
    assert nitrogen_of_a_year("turf_supplied", "fescue/bent", False, SETTINGS) == 70
