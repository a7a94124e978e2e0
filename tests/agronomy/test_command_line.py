"""``python -m growin.agronomy``: what it prints and how it ends."""

import json
import subprocess
import sys

import pytest

from growin.agronomy.__main__ import main
from tests.agronomy import sheet

GOOD = {
    "id": "green",
    "title": "Two directions",
    "calculation": "green_speed_from_rolls",
    "inputs": {"first_direction_m": [3.0], "second_direction_m": [2.8]},
    "expected": {"speed_m": 2.9, "difference_m": 0.2},
    "tolerance": {"speed_m": 0.005, "difference_m": 0.005},
}


@pytest.fixture
def written(tmp_path):
    def write(content):
        path = tmp_path / "sheet.json"
        path.write_text(content if isinstance(content, str) else json.dumps(content), encoding="utf-8")
        return str(path)

    return write


def test_our_own_sheets_all_pass(capsys):
    endings = [main(["check", str(path)]) for path in sheet.FILES]
    assert endings == [0] * 13
    assert "MISS" not in capsys.readouterr().out


def test_each_figure_stands_beside_the_published_one(written, capsys):
    assert main(["check", written([GOOD])]) == 0
    lines = [line.split() for line in capsys.readouterr().out.splitlines()]
    assert lines == [
        ["row", "figure", "calculated", "published"],
        ["green", "speed_m", "2.9", "2.9", "agrees"],
        ["green", "difference_m", "0.2", "0.2", "agrees"],
        ["1", "rows,", "1", "pass,", "0", "miss."],
    ]


def test_a_miss_ends_with_one_and_says_why(written, capsys):
    assert main(["check", written([GOOD | {"expected": {"speed_m": 3}}])]) == 1
    assert "green: MISS. speed_m comes to 2.9, published is 3 (within 0.005)." in capsys.readouterr().out


def test_an_unknown_calculation_ends_with_one(written, capsys):
    assert main(["check", written([GOOD, GOOD | {"calculation": "guess"}])]) == 1
    assert "2 rows, 1 pass, 1 miss." in capsys.readouterr().out


def test_as_json_it_is_the_same(written, capsys):
    assert main(["check", written([GOOD]), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert {key: told[key] for key in ("rows", "passed", "missed")} == {"rows": 1, "passed": 1, "missed": 0}
    assert [figure["key"] for figure in told["results"][0]["figures"]] == ["speed_m", "difference_m"]


@pytest.mark.parametrize("content", ["", "{", "[NaN]", "{}", "[]", '"rows"', "[" * 100_000])
def test_what_is_no_sheet_ends_with_two_and_one_sentence(written, capsys, content):
    assert main(["check", written(content)]) == 2
    told = capsys.readouterr()
    assert (told.out, told.err.count("\n")) == ("", 1)


def test_bytes_that_are_no_text_end_with_two(tmp_path, capsys):
    path = tmp_path / "sheet.json"
    path.write_bytes(b"\xff\xfe\x00[")
    assert main(["check", str(path)]) == 2
    assert "is not JSON" in capsys.readouterr().err


@pytest.mark.parametrize(
    "words",
    [[], ["prove", "x.json"], ["check"], ["check", "missing.json"], ["check", "."], ["check", "a", "--yes"]],
)
def test_unknown_words_and_missing_files_end_with_two_and_one_sentence(words, capsys):
    assert main(words) == 2
    told = capsys.readouterr()
    assert (told.out, told.err.count("\n")) == ("", 1)
    assert told.err.endswith(".\n")


def test_it_runs_without_a_site_around_it(written):
    ran = subprocess.run(
        [sys.executable, "-W", "error", "-m", "growin.agronomy", "check", written([GOOD])],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (ran.returncode, ran.stderr) == (0, "")
