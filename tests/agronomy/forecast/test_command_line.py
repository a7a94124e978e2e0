"""``python -m growin.agronomy forecast FILE.json`` and ``programme FILE.json``."""

import copy
import json
import re
import subprocess
import sys

import pytest

from growin.agronomy.__main__ import main

FILE = {
    "green": {
        "area_m2": 450,
        "establishment": "turf_relaid",
        "species": "fescue/bent",
        "established_on": "2025-10-20",
        "latitude_deg": 54.0,
        "target_height_mm": 4.5,
    },
    "weather": {
        "normals_c": [4.0, 4.3, 6.2, 8.5, 11.5, 14.4, 16.5, 16.3, 13.9, 10.4, 6.8, 4.4],
        "daily": [["2026-03-01", 6.1], ["2026-03-02", 7.4]],
    },
    "readings": [
        {"measure": "rooting_depth", "on": "2026-03-02", "values": [22, 31, 28, 35, 26]},
        {"measure": "hand_pull", "on": "2026-03-02", "values": [True, False, True]},
        {"measure": "cover", "on": "2026-03-02", "values": [{"hits": 24, "points": 25}]},
        {"measure": "lip", "on": "2026-03-02", "values": [1, 1.5]},
    ],
    "height_of_cut": [["2025-11-12", 10.0], ["2026-03-01", 8.0]],
    "today": "2026-03-03",
    "ask": ["2026-04-11", "2026-05-02"],
}
LEAST = {
    "green": {key: value for key, value in FILE["green"].items() if key != "target_height_mm"},
    "weather": {"normals_c": FILE["weather"]["normals_c"], "daily": []},
}


def changed(*path, to):
    """The file with one value changed."""
    parsed = copy.deepcopy(FILE)
    part = parsed
    for key in path[:-1]:
        part = part[key]
    part[path[-1]] = to
    return parsed


@pytest.fixture
def ask(tmp_path, capsys):
    def run(command, content):
        path = tmp_path / "green.json"
        path.write_text(json.dumps(content), encoding="utf-8")
        return main([command, str(path)]), capsys.readouterr()

    return run


def test_a_forecast_has_these_names(ask):
    ending, told = ask("forecast", FILE)
    answer = json.loads(told.out)
    assert (ending, told.err) == (0, "")
    assert list(answer) == ["as_of", "opening", "ready_by", "holding_back"]
    assert list(answer["opening"]) == ["p10", "p50", "p90", "within_season"]
    assert (answer["as_of"], list(answer["ready_by"])) == ("2026-03-03", FILE["ask"])
    assert answer["opening"]["p10"] <= answer["opening"]["p50"] <= answer["opening"]["p90"]
    assert sum(answer["holding_back"].values()) == pytest.approx(1)


def test_little_is_enough_and_then_it_is_asked_on_the_day_of_laying(ask):
    ending, told = ask("forecast", LEAST)
    answer = json.loads(told.out)
    assert (ending, answer["as_of"], answer["ready_by"]) == (0, "2025-10-20", {})


def test_without_a_day_the_last_one_known_counts(ask):
    without = {key: value for key, value in FILE.items() if key != "today"}
    assert json.loads(ask("forecast", without)[1].out)["as_of"] == "2026-03-02"


def test_a_programme_has_these_names(ask):
    ending, told = ask("programme", FILE)
    steps = json.loads(told.out)["steps"]
    names = ["key", "kind", "earliest", "likely", "latest", "amount", "unit", "why", "source"]
    assert (ending, {tuple(step) for step in steps}) == (0, {tuple(names)})


BAD = {
    "minus sixty": (changed("weather", "daily", to=[["2026-03-01", -60]]), "-60.* from -50 to 45"),
    "plus sixty": (changed("weather", "daily", to=[["2026-03-01", 60]]), "60.* from -50 to 45"),
    "fahrenheit": (changed("weather", "daily", to=[["2026-03-01", 43]]), "Celsius and not in Fahrenheit"),
    "normals": (changed("weather", "normals_c", to=[60] * 12), "monthly normal"),
    "order": (
        changed("weather", "daily", to=[["2026-03-02", 6], ["2026-03-01", 6]]),
        "2026-03-01.*later than",
    ),
    "twice": (
        changed("weather", "daily", to=[["2026-03-02", 6], ["2026-03-02", 6]]),
        "later than 2026-03-02",
    ),
    "no list": (changed("weather", "daily", to=7), "daily should be a list"),
    "a word": (changed("weather", "daily", to=[["2026-03-01", "mild"]]), "'mild' is not a number"),
    "species": (changed("green", "species", to="ryegrass"), "ryegrass"),
    "establishment": (changed("green", "establishment", to="sod"), "sod"),
    "name": (changed("colour", to="green"), "Not known in the file: “colour”"),
}
BAD_READINGS = {
    "measure": (changed("readings", 0, "measure", to="leaf_song"), "leaf_song"),
    "early": (changed("readings", 0, "on", to="2025-10-01"), "when the green was laid or sown"),
    "no day": (changed("readings", 0, "on", to="spring"), "'spring' is not a day"),
    "depth": (changed("readings", 0, "values", to=[-5]), "White roots"),
    "empty": (changed("readings", 0, "values", to=[]), "White roots"),
    "answer": (changed("readings", 1, "values", to=["perhaps"]), "perhaps"),
    "hits": (changed("readings", 2, "values", to=[{"hits": 30, "points": 25}]), "30"),
    "more": (changed("readings", 0, "by", to="nobody"), "A reading should hold measure, on, values"),
    "cut": (changed("height_of_cut", to=[["2025-10-01", 10]]), "2025-10-01.*when the green was laid"),
    "height": (changed("height_of_cut", to=[["2026-03-01", 0]]), "height_of_cut"),
    "ask": (changed("ask", to=["soon"]), "'soon' is not a day"),
    "today": (changed("today", to="2099-01-01"), "2099-01-01"),
    "huge": (changed("height_of_cut", to=[["2026-03-01", 10**400]]), "too large to be meant"),
}


@pytest.mark.parametrize(("content", "words"), (BAD | BAD_READINGS).values(), ids=BAD | BAD_READINGS)
def test_a_bad_file_ends_with_two_and_one_sentence(ask, content, words):
    ending, told = ask("forecast", content)
    assert (ending, told.out, told.err.count("\n")) == (2, "", 1)
    assert re.search(words, told.err), told.err


@pytest.mark.parametrize(("content", "words"), BAD.values(), ids=BAD)
def test_a_programme_refuses_the_same(ask, content, words):
    ending, told = ask("programme", content)
    assert (ending, told.out, told.err.count("\n")) == (2, "", 1)
    assert re.search(words, told.err), told.err


def test_it_runs_without_a_site_around_it(tmp_path):
    path = tmp_path / "green.json"
    path.write_text(json.dumps(FILE), encoding="utf-8")
    ran = subprocess.run(
        [sys.executable, "-W", "error", "-m", "growin.agronomy", "forecast", str(path)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (ran.returncode, ran.stderr) == (0, "")
    assert json.loads(ran.stdout)["as_of"] == "2026-03-03"
