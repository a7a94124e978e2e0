"""Kinds of diary entry and what they refuse."""

from datetime import date

import pytest

from growin.agronomy.cautions import CAUTIONS
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.works import (
    FAMILIES,
    WORKS,
    DetailError,
    check_day,
    check_details,
    missing_details,
)

LAID, TODAY = date(2025, 11, 20), date(2026, 4, 16)


def _errors(work, details):
    with pytest.raises(DetailError) as refused:
        check_details(work, details)
    return refused.value.errors


def test_a_cut_keeps_its_height_and_leaves_out_what_was_not_said():
    said = {"height_mm": "9.5", "boxes": "off", "direction": " ", "clippings_ml_m2": None, "scalped": "no"}
    assert check_details("cut", said) == {"height_mm": 9.5, "boxes": "off", "scalped": False}


def test_a_cut_at_80_mm_is_refused_with_the_heights_that_a_bench_can_be_set_to():
    assert _errors("cut", {"height_mm": 80}) == {
        "height_mm": "Height of cut on the bench, mm: 80 is not possible; it should be from 2 to 40."
    }


@pytest.mark.parametrize("height", ["nine", True, "nan", "inf", "9,5", [9], "1e400"])
def test_a_height_that_is_no_number_is_refused(height):
    assert list(_errors("cut", {"height_mm": height})) == ["height_mm"]


def test_every_wrong_detail_gets_its_own_sentence():
    found = _errors("spray", {"start": "25:00", "operator": "J. Moor", "wind_m_s": -1, "tank": 3})
    assert found == {
        "tank": "tank is not a detail of this kind.",
        "purpose": "Purpose is missing.",
        "target": "Target is missing.",
        "start": "Start: “25:00” is not possible; it should be a time of day such as 08:30.",
        "wind_m_s": "Wind, m/s: -1 is not possible; it should be from 0 to 60.",
    }


def test_a_spray_record_without_its_registration_number_is_kept_and_asked_for():
    kept = check_details(
        "spray", {"purpose": "moss", "target": "moss", "operator": "J. Moor", "start": "8:05"}
    )
    assert kept == {"purpose": "moss", "target": "moss", "operator": "J. Moor", "start": "08:05"}
    wanted = [one.key for one in missing_details(WORKS["spray"], kept)]
    assert wanted == ["registration_number", "certificate", "water_l_ha", "end", "wind_m_s", "re_entry_h"]


def test_a_defect_keeps_the_day_it_is_due():
    kept = check_details("defect", {"what": "hollow over a trench", "due_on": "2026-03-01"})
    assert kept == {"what": "hollow over a trench", "due_on": "2026-03-01"}


def test_only_cuts_and_rolls_wait_for_turf():
    assert {key for key, one in WORKS.items() if one.needs_turf} == {"cut", "roll"}


def test_one_tap_is_enough_for_a_walk_and_for_work_the_weather_stopped():
    assert {key for key, one in WORKS.items() if one.answer_only} == {"walk", "not_done"}
    assert check_details("walk", {}) == {}


def test_every_kind_has_a_family_and_cautions_that_exist():
    assert {one.family for one in WORKS.values()} == set(FAMILIES)
    assert {caution for one in WORKS.values() for caution in one.cautions} == set(CAUTIONS)


def test_lines_of_entries_take_products_where_the_trade_spreads_them():
    assert {key: one.takes_product for key, one in WORKS.items() if one.takes_product} == {
        "dressing": "sand",
        "feed": "feed",
        "overseed": "seed",
        "wetting_agent": "wetting_agent",
        "spray": "spray",
    }


def test_an_unknown_kind_is_refused():
    with pytest.raises(ImpossibleValue, match="“mow” is not possible; it should be one of: cut, roll"):
        check_details("mow", {})


@pytest.mark.parametrize(
    ("on", "established_on", "sentence"),
    [
        (
            date(2026, 4, 17),
            LAID,
            "it should be today, Thu 16 April 2026, or before.",
        ),
        (
            date(2025, 11, 19),
            LAID,
            "from laying or sowing, Thu 20 November 2025, on.",
        ),
        (date(2026, 4, 1), None, "it should be after laying or sowing, which has no date yet."),
    ],
)
def test_a_cut_cannot_fall_in_the_future_or_before_the_turf(on, established_on, sentence):
    with pytest.raises(ImpossibleValue) as refused:
        check_day("Cut", on, today=TODAY, needs_turf=True, established_on=established_on)
    assert str(refused.value).endswith(sentence)


def test_building_may_be_logged_from_its_start_on():
    check_day("Construction work", date(2025, 9, 1), today=TODAY, building_from=date(2025, 9, 1))
    with pytest.raises(ImpossibleValue, match="from the start of construction, Mon 1 September 2025, on"):
        check_day("Construction work", date(2025, 8, 31), today=TODAY, building_from=date(2025, 9, 1))
