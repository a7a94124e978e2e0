"""Calculations by name."""

import pytest

from growin.agronomy.catalogue import CATALOGUE, calculate
from growin.agronomy.impossible import ImpossibleValue


def test_the_catalogue_holds_48_calculations():
    assert len(CATALOGUE) == 48


def test_outputs_come_by_name():
    assert calculate("pure_live_seed", {"purity_percent": 100, "germination_percent": 80}) == {
        "pure_live_percent": 80.0,
        "seed_factor": 1.25,
    }
    assert calculate("water_volume", {"depth_mm": 6, "area_m2": 1000}) == {"volume_m3": 6.0}


def test_what_was_not_asked_for_is_left_out():
    assert set(calculate("oxide_to_element", {"mgo_percent": 2})) == {"mg_percent"}
    assert set(calculate("vapour_pressure", {"maximum_c": 20, "minimum_c": 10})) == {"saturation_kpa"}


def test_answers_are_plain_numbers():
    radiation = calculate("extraterrestrial_radiation", {"latitude_deg": 50, "day_of_year": 100})
    assert type(radiation["radiation_mj_m2_day"]) is float
    balance = calculate(
        "soil_water_balance",
        {
            "initial_depletion_mm": 0,
            "total_available_mm": [15],
            "readily_available_mm": [7.5],
            "rain_mm": [0],
            "irrigation_mm": [0],
            "crop_evapotranspiration_mm": [4],
        },
    )
    assert balance == {
        "stress_coefficient": [1.0],
        "actual_evapotranspiration_mm": [4],
        "deep_percolation_mm": [0.0],
        "depletion_mm": [4.0],
    }


@pytest.mark.parametrize("name", ["", "water", "__init__"])
def test_an_unknown_name_is_refused(name):
    with pytest.raises(ImpossibleValue):
        calculate(name, {})
