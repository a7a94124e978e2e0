"""Real greens beside the programme drawn from their own normals, without that year's weather.

Honest tolerance: a real opening lies within the window shown, or within three weeks of it. Four
histories are few, their normals are from memory and one opening was limited.
"""

import json
from datetime import date, timedelta
from pathlib import Path

import pytest

from growin.agronomy.programme import programme_from_file

HISTORIES = json.loads((Path(__file__).parents[1] / "histories.json").read_text())["histories"]
TOLERANCE = timedelta(days=21)


def opening_of(history):
    parsed = {"green": history["green"], "weather": {"normals_c": history["normals_c"], "daily": []}}
    steps = {step["key"]: step for step in programme_from_file(parsed)["steps"]}
    return {name: date.fromisoformat(steps["inspection-opening"][name]) for name in ("earliest", "latest")}


@pytest.mark.parametrize("history", HISTORIES, ids=lambda history: history["id"])
def test_the_real_opening_lies_in_or_near_the_window(history):
    opened, window = date.fromisoformat(history["opened_on"]), opening_of(history)
    assert window["earliest"] - TOLERANCE <= opened <= window["latest"] + TOLERANCE


def test_at_least_half_of_them_lie_inside_the_window_itself():
    inside = [
        history["id"]
        for history in HISTORIES
        if opening_of(history)["earliest"]
        <= date.fromisoformat(history["opened_on"])
        <= opening_of(history)["latest"]
    ]
    assert inside == ["open-01", "open-03"]
