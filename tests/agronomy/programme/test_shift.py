"""Old against new: each shift is put down to what moved it."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from growin.agronomy.climate import Climate
from growin.agronomy.programme.done import Done
from growin.agronomy.programme.shift import Drawing, Share, furthest, shares, stages, warmth
from tests.agronomy.climates import ENGLAND
from tests.agronomy.programme.drawn import SETTINGS, facts

TODAY = date(2026, 3, 31)
OLD = Drawing(facts(), Climate(ENGLAND), SETTINGS)


def march(warmer_c: float) -> Climate:
    """Every day of March measured, so much warmer than its normal."""
    month = [date(2026, 3, day) for day in range(1, 32)]
    return Climate(ENGLAND, daily={day: OLD.climate.normal_c(day) + warmer_c for day in month})


def causes(old: Drawing, new: Drawing) -> set[str]:
    return {one.cause for some in shares(old, new).values() for one in some}


def test_the_same_drawing_moves_nothing():
    assert (shares(OLD, OLD), len(stages(OLD, OLD)), furthest(OLD, OLD, TODAY)) == ({}, 1, 0)


def test_a_warm_march_brings_the_first_feed_forward_and_says_why():
    new = replace(OLD, climate=march(3))
    moved = shares(OLD, new)["feed-01"]
    earlier = (new.steps["feed-01"].likely - OLD.steps["feed-01"].likely).days
    assert moved == (Share("weather", earlier),)
    assert earlier < 0


@pytest.mark.parametrize("warmer_c", [3, -3])
def test_warmth_is_told_in_degree_days_and_in_days_of_the_pace_to_come(warmer_c):
    """31 days 3 °C off the normal are 93 °C·days above 0, bar what the spread of a day is worth."""
    told = warmth(OLD, replace(OLD, climate=march(warmer_c)), TODAY)
    assert (told.measured, told.unit) == (31, "°C·days")
    assert told.gained == pytest.approx(31 * warmer_c, abs=8)
    april = OLD.climate.normal_c(date(2026, 4, 6))
    assert told.days == pytest.approx(told.gained / april, rel=0.05)


def test_days_that_were_known_before_are_not_told_again():
    known = replace(OLD, climate=march(3))
    assert warmth(known, known, TODAY).measured == 0


def test_every_cause_is_named_and_its_days_add_up():
    new = Drawing(
        facts(others_height_mm=5.0),
        march(2),
        SETTINGS | {"heights.hold.days": 10.0},
        Done(TODAY, cuts=((date(2025, 11, 20), 12), (date(2025, 12, 12), 8))),
    )
    assert causes(OLD, new) == {"weather", "work", "record", "settings"}
    for key, some in shares(OLD, new).items():
        if key in OLD.steps and key in new.steps and all(one.days for one in some):
            assert sum(one.days for one in some) == (new.steps[key].likely - OLD.steps[key].likely).days


def test_one_setting_is_the_only_cause_of_what_it_moves():
    new = replace(OLD, settings=SETTINGS | {"rounds.roll": 10.0})
    assert causes(OLD, new) == {"settings"}
    assert {key.split("-")[0] for key in shares(OLD, new)} == {"roll"}


def test_only_steps_still_to_come_count_as_lagging():
    new = replace(OLD, climate=march(3))
    assert furthest(OLD, new, TODAY) <= -7
    assert furthest(OLD, new, TODAY + timedelta(days=900)) == 0
