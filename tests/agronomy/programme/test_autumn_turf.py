"""Turf laid in a British autumn: it rests over winter and opens mid to late April."""

from datetime import date

import pytest

from growin.agronomy.climate import Climate
from tests.agronomy.climates import ENGLAND
from tests.agronomy.programme.drawn import by_key, drawn, facts, likely

STEPS = drawn(facts())
WINTER = (date(2025, 11, 25), date(2026, 3, 1))


@pytest.mark.parametrize(
    "laid", [date(2025, 10, 1), date(2025, 10, 20), date(2025, 11, 10), date(2025, 12, 5)]
)
def test_laid_by_the_first_week_of_december_it_opens_mid_to_late_april(laid):
    # Rebuilt September to March, turf down by the first week of December, open mid to late April: BIGGA 2004.
    opening = by_key(drawn(facts(established_on=laid)))["inspection-opening"]
    assert date(2026, 4, 13) <= opening.likely <= date(2026, 4, 30)


def test_no_feeding_rolling_sand_or_lower_cut_over_the_winter():
    resting = {"feed", "roll", "dressing", "cut", "aerate"}
    start, end = WINTER
    assert [step.key for step in STEPS if step.kind in resting and start <= step.likely < end] == []


def test_the_green_is_still_walked_and_looked_after_in_winter():
    start, end = WINTER
    kinds = {step.kind for step in STEPS if start <= step.likely < end}
    assert kinds == {"walk", "photograph", "drain_check", "settle", "reading"}


def test_heights_as_british_clubs_take_them():
    # 10–12 mm once knitted, 8 through winter, 7 mid-March, about 6 by opening (club practice).
    assert likely(STEPS, ("cut-first", "cut-ladder")) == {
        "cut-first-11.0": date(2025, 11, 6),
        "cut-ladder-8.0": date(2025, 11, 20),
        "cut-ladder-7.0": date(2026, 3, 17),
        "cut-ladder-6.0": date(2026, 3, 27),
        "cut-ladder-5.5": date(2026, 4, 4),
    }


def test_first_feed_is_light_once_the_soil_has_held_six_degrees_for_a_week():
    # First 5–8, one of 10–15 once the 7-day mean air is 8 °C, then 5–8 every 7–10 days (common practice).
    feeds = [step for step in STEPS if step.key.startswith("feed-0")]
    assert [(step.key, step.likely, step.n_kg_ha) for step in feeds[:3]] == [
        ("feed-01", date(2026, 3, 23), 6),
        ("feed-02", date(2026, 4, 13), 12),
        ("feed-03", date(2026, 4, 22), 6.5),
    ]
    climate = Climate(ENGLAND)
    assert all(climate.soil_c(step.likely) >= 6 for step in feeds)
    assert all(5 <= step.n_kg_ha <= 8 for step in feeds[2:])


def test_first_sand_goes_into_the_joints_after_late_february():
    sand = [step for step in STEPS if step.kind == "dressing"]
    assert sand[0].key == "dressing-joints"
    assert date(2026, 2, 20) <= sand[0].likely <= date(2026, 3, 31)
    assert 1 <= sand[0].amount <= 2
    assert all(0.2 <= step.amount <= 0.8 for step in sand[1:])


def test_opening_height_has_held_a_fortnight_and_summer_height_follows():
    steps = by_key(STEPS)
    opening = steps["inspection-opening"]
    assert (opening.likely - steps["cut-ladder-5.5"].likely).days >= 14
    # Summer height 4–8 weeks after opening (common practice).
    assert 28 <= (steps["cut-summer-4.5"].likely - opening.likely).days <= 56
    rechecks = {key: (day - opening.likely).days for key, day in likely(STEPS, "recheck").items()}
    assert rechecks == {"recheck-07": 7, "recheck-14": 14, "recheck-28": 28}


def test_the_gate_stands_in_the_programme_with_its_date():
    gate = by_key(STEPS)["gate-opening"]
    assert (gate.earliest, gate.likely, gate.latest) == (date(2026, 4, 1),) * 3


def test_three_whole_sets_of_readings_before_opening_and_roots_before_that():
    first_set = {step.measure for step in STEPS if step.key.endswith("-02") and step.measure}
    assert first_set == {"rooting_depth", "hand_pull", "joint_gap", "lip", "dip", "hole", "drop"}
    opening = by_key(STEPS)["inspection-opening"].likely
    holes = [(opening - day).days for day in likely(STEPS, "reading-hole-").values()]
    assert holes == [28, 14, 4]


def test_the_week_names_the_walk():
    walks = [step.key for step in STEPS if step.kind == "walk"]
    assert walks[:2] == ["walk-2025-W43", "walk-2025-W44"]
    assert "walk-2026-W10" in walks


def test_turf_of_the_south_walks_the_same_road_six_months_later():
    south = drawn(facts(established_on=date(2026, 4, 20), latitude_deg=-54), ENGLAND[6:] + ENGLAND[:6])
    opening = by_key(south)["inspection-opening"].likely
    assert date(2026, 10, 13) <= opening <= date(2026, 10, 31)
    assert by_key(south)["gate-opening"].likely == date(2026, 10, 1)
    assert not [step for step in south if step.kind == "feed" and 6 <= step.likely.month <= 8]
