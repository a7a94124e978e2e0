"""A programme from a file, as the command line prints it."""

import copy
import json

import pytest

from growin.agronomy.programme import programme_from_file
from tests.agronomy.climates import ENGLAND

FILE = {
    "green": {
        "area_m2": 450,
        "establishment": "turf_relaid",
        "species": "fescue/bent",
        "established_on": "2025-10-20",
        "latitude_deg": 54.0,
        "target_height_mm": 4.5,
    },
    "weather": {"normals_c": list(ENGLAND), "daily": [["2026-03-01", 6.1], ["2026-03-02", 7.4]]},
    "readings": [],
    "height_of_cut": [["2025-11-12", 10.0]],
    "today": "2026-03-03",
    "ask": ["2026-04-11"],
}


def changed(part, **more):
    parsed = copy.deepcopy(FILE)
    parsed[part] |= more
    return parsed


def test_steps_are_plain_data_with_iso_dates():
    steps = programme_from_file(FILE)["steps"]
    gate = next(step for step in steps if step["key"] == "gate-opening")
    assert gate == {
        "key": "gate-opening",
        "kind": "gate",
        "earliest": "2026-04-01",
        "likely": "2026-04-01",
        "latest": "2026-04-01",
        "amount": None,
        "unit": "",
        "why": "new turf looks ready well before it is; opened while immature it takes twice as long to heal",
        "source": "our judgement: USGA 2014; BIGGA 2004",
    }
    assert json.loads(json.dumps(steps)) == steps


def test_the_target_height_is_the_summer_height():
    keys = {step["key"] for step in programme_from_file(changed("green", target_height_mm=4.0))["steps"]}
    assert {"cut-ladder-5.0", "cut-summer-4.0"} <= keys


def test_a_file_may_say_that_the_turf_came_on_finer_soil():
    said = programme_from_file(changed("green", turf_soil_finer=True))
    assert said == programme_from_file(changed("green", risks=["turf_soil_finer"]))
    assert said != programme_from_file(FILE)


def test_a_file_may_say_that_the_adviser_agrees_to_the_shorter_gate():
    laid = {"established_on": "2026-04-01"}
    gates = [
        next(
            step
            for step in programme_from_file(changed("green", **laid, **more))["steps"]
            if step["kind"] == "gate"
        )
        for more in ({}, {"adviser_agrees": True})
    ]
    assert [gate["likely"] for gate in gates] == ["2026-05-27", "2026-04-29"]


@pytest.mark.parametrize(
    ("parsed", "sentence"),
    [
        (changed("green", species="ryegrass"), "“ryegrass” is not known.*creeping bent"),
        (changed("green", establishment="sod"), "“sod” is not known.*turf_relaid"),
        (changed("green", established_on="20 October"), "established_on: '20 October' is not a day"),
        (
            changed("green", established_on="9999-12-01"),
            "9999.* is not possible; it should be from 1900 to 2200",
        ),
        (changed("green", area_m2="large"), "area_m2: 'large' is not a number"),
        (changed("green", colour="green"), "Not known in the green: “colour”; allowed are area_m2"),
        (changed("green", risks=["dragons"]), "risks: 'dragons' is not known; allowed are shallow_rootzone"),
        (changed("green", turf_soil_finer="yes"), "turf_soil_finer: 'yes' should be true or false"),
        (changed("green", species=["fescue"]), "is not a word"),
        (changed("green", area_m2=None), "Missing in the green: area_m2"),
        (changed("weather", normals_c=[1, 2]), "twelve monthly means"),
        (changed("weather", normals_c=[None] * 12), "None is not a number"),
        (changed("weather", daily=[["2026-03-01"]]), "A measured day should be"),
        ({"green": FILE["green"]}, "Missing in the file: weather"),
        ([], "the file should hold names with values"),
    ],
)
def test_a_bad_file_is_answered_in_one_sentence(parsed, sentence):
    with pytest.raises(ValueError, match=sentence):
        programme_from_file(parsed)
