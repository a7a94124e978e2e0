"""Every published figure of the sheets comes out of the sums, and bad rows are misses with a sentence."""

import pytest

from growin.agronomy.catalogue import CATALOGUE
from growin.agronomy.check import agrees, check_row, check_rows
from tests.agronomy import sheet

ROWS = sheet.rows()
GOOD = {
    "id": "by-hand",
    "title": "Ten millimetres on a hectare",
    "calculation": "water_volume",
    "source": "Unit identity",
    "kind": "derived",
    "inputs": {"depth_mm": 10, "area_m2": 10_000},
    "expected": {"volume_m3": 100},
    "tolerance": {"volume_m3": 0},
}


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_the_published_figures_come_out(row):
    result = check_row(row)
    assert (result.passed, result.why) == (True, "")


def test_the_sheets_hold_174_rows_of_every_calculation_each_named_once():
    assert len(ROWS) == len({row["id"] for row in ROWS}) == len({row["title"] for row in ROWS}) == 174
    assert {row["calculation"] for row in ROWS} == set(CATALOGUE)


def test_every_row_says_where_its_figures_come_from():
    fields = {
        "id",
        "title",
        "calculation",
        "source",
        "seen",
        "kind",
        "inputs",
        "expected",
        "tolerance",
        "note",
    }
    assert all(row.keys() == fields for row in ROWS)
    assert {row["kind"] for row in ROWS} == {"published", "derived", "from memory"}
    assert all(row["source"] for row in ROWS)


def test_a_row_stands_as_words_and_numbers():
    assert check_row(GOOD).as_dict() == {
        "id": "by-hand",
        "title": "Ten millimetres on a hectare",
        "calculation": "water_volume",
        "source": "Unit identity",
        "kind": "derived",
        "passed": True,
        "why": "",
        "figures": [
            {
                "key": "volume_m3",
                "published": 100,
                "calculated": 100.0,
                "tolerance": 0,
                "agrees": True,
            }
        ],
    }


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"expected": {"volume_m3": 101}}, "volume_m3 comes to 100.0, published is 101 (within 0)."),
        ({"expected": {"litres": 100}}, "The calculation gives no litres."),
        (
            {"calculation": "water_weight"},
            "calculation: water_weight is not possible; it should be one of the catalogue's names.",
        ),
        (
            {"inputs": {"depth_mm": -1, "area_m2": 1}},
            "depth of water, mm: -1 is not possible; it should be at least 0.",
        ),
        ({"inputs": {"depth_mm": 1}}, "area_m2: nothing is not possible; it should be given."),
        (
            {"inputs": {"depth_mm": 1, "area_m2": 1, "rain": 2}},
            "input: rain is not possible; it should be one of depth_mm, area_m2.",
        ),
        (
            {"inputs": {"depth_mm": "ten", "area_m2": 1}},
            "depth_mm: 'ten' is not possible; it should be a number, or a list of numbers.",
        ),
        (
            {"inputs": {"depth_mm": True, "area_m2": 1}},
            "depth_mm: True is not possible; it should be a number, or a list of numbers.",
        ),
        ({"inputs": []}, "The row has no inputs."),
        ({"expected": None}, "The row has no expected."),
        ({"expected": {}}, "The row expects nothing."),
        ({"calculation": 7}, "The row names no calculation."),
        ({"tolerance": {"volume_m3": "small"}}, "The tolerance of volume_m3 is not a number from 0."),
        ({"tolerance": {"volume_m3": -1}}, "The tolerance of volume_m3 is not a number from 0."),
        ({"tolerance": [1]}, "The tolerance is not a number for each figure."),
    ],
)
def test_a_bad_row_is_a_miss_with_a_sentence(change, why):
    result = check_row(GOOD | change)
    assert (result.passed, result.why) == (False, why)


@pytest.mark.parametrize("row", [None, 7, "row", ["row"]])
def test_what_is_no_row_is_a_miss_too(row):
    assert check_row(row).why == "The row is not a set of named fields."


def test_inputs_no_sum_can_take_are_a_miss_and_do_not_stop_the_others():
    odd = GOOD | {"inputs": {"depth_mm": [1, 2], "area_m2": 3}}
    assert [result.passed for result in check_rows([odd, GOOD])] == [False, True]


def test_an_optional_input_left_empty_is_not_given():
    row = {
        "calculation": "hollow_coring",
        "inputs": {"tine_diameter_mm": 12, "spacing_mm": 50, "row_spacing_mm": 50, "depth_mm": None},
        "expected": {"holes_per_m2": 400},
    }
    assert check_row(row).passed


@pytest.mark.parametrize(
    ("published", "calculated", "tolerance", "same"),
    [
        (1.0, 1.05, 0.05, True),
        (1.0, 1.0500001, 0.05, False),
        (3, 3, 0, True),
        (0.3, 0.1 + 0.2, 0, True),
        ([1, 2], [1.04, 1.96], 0.05, True),
        ([1, 2], [1, 2, 3], 0.05, False),
        ([1, 2], [1, 2.06], 0.05, False),
        ([1], 1, 0.05, False),
        (True, True, 0, True),
        (True, False, 1, False),
        (True, 1, 0, False),
        (1, None, 5, False),
        (1, float("nan"), 5, False),
    ],
)
def test_figures_agree_within_their_tolerance_and_answers_exactly(published, calculated, tolerance, same):
    assert agrees(published, calculated, tolerance) is same
