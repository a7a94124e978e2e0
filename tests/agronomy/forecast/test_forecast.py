"""What a forecast says of a green, and how it moves with what is known."""

from dataclasses import replace
from datetime import date

import pytest

from growin.agronomy.facts import HeightOnDay
from growin.agronomy.impossible import ImpossibleValue
from tests.agronomy.climates import ENGLAND, HARD_WINTER
from tests.agronomy.forecast.asked import (
    DAY,
    QUICK,
    SETTINGS,
    a_ready_set,
    asked,
    at_opening_height,
    green,
    reading,
)

LATE = green(on=date(2025, 12, 3))
MARCH, MAY = date(2026, 3, 3), date(2026, 5, 4)
HELD = at_opening_height(date(2026, 4, 10), MAY)
WARM = {date(2026, 4, 1) + n * DAY: 11.0 for n in range(40)}


def a_poor_set(on):
    return [
        reading("hand_pull", on, *[True] * 2, *[False] * 8),
        reading("rooting_depth", on, 8, 5, 12, 9, 10),
        reading("hole", on, False, False, False),
    ]


def a_good_set(on):
    return [
        reading("hand_pull", on, *[True] * 8, False, False),
        reading("rooting_depth", on, 48, 55, 43, 60, 52),
        reading("hole", on, True, True, False),
    ]


def test_the_same_green_on_the_same_day_has_the_same_forecast():
    assert asked(as_of=MARCH, readings=a_good_set(MARCH)) == asked(as_of=MARCH, readings=a_good_set(MARCH))


def test_quantiles_stand_in_order_and_chances_grow():
    told = asked(asks=[date(2026, 4, 11), date(2026, 5, 2), date(2029, 1, 1)])
    assert told.as_of < told.gate.day <= told.p10 <= told.p50 <= told.p90
    chances = list(told.ready_by.values())
    assert chances == sorted(chances) and chances[-1] == pytest.approx(told.chances[-1], abs=1e-4)
    assert (told.quantile(0.5), told.chance_by(told.p50) >= 0.5) == (told.p50, True)


def test_no_green_opens_before_its_gate():
    told = asked()
    assert told.chance_by(told.gate.day - DAY) == 0
    assert told.gate.day == date(2026, 4, 1)


def test_good_readings_bring_the_day_forward_and_poor_ones_put_it_off():
    before = asked(LATE, as_of=MARCH)
    good, poor = (asked(LATE, as_of=MARCH, readings=one) for one in (a_good_set(MARCH), a_poor_set(MARCH)))
    assert good.p50 < before.p50 < poor.p50
    assert good.p90 < before.p90 < poor.p90


def test_readings_narrow_the_interval():
    before, after = asked(LATE, as_of=MARCH), asked(LATE, as_of=MARCH, readings=a_good_set(MARCH))
    assert after.p90 - after.p10 < before.p90 - before.p10


def test_what_is_later_than_the_day_of_the_forecast_is_not_looked_at():
    later = {date(2026, 3, 20): 20.0}
    known = asked(as_of=MARCH, readings=a_good_set(MARCH))
    more = asked(
        as_of=MARCH,
        readings=[*a_good_set(MARCH), *a_poor_set(date(2026, 3, 20))],
        heights=[HeightOnDay(date(2026, 3, 20), 8.0)],
        daily=later,
    )
    assert more == known


def test_a_green_on_which_nothing_is_unmet_may_open_at_once():
    told = asked(as_of=MAY, readings=a_ready_set(MAY), heights=HELD, daily=WARM)
    assert (told.p10, told.p50, told.p90, told.holding_back) == (MAY, MAY, MAY, {})


def test_a_green_that_is_ready_before_its_gate_waits_for_the_gate():
    on = date(2026, 3, 25)
    heights = at_opening_height(date(2026, 3, 1), on)
    warm = {date(2026, 3, 1) + n * DAY: 12.0 for n in range(25)}
    told = asked(as_of=on, readings=a_ready_set(on), heights=heights, daily=warm)
    assert told.p10 >= date(2026, 4, 1)
    assert max(told.holding_back, key=told.holding_back.get) in {"gate", "growth"}


def test_one_failed_criterion_holds_back_and_waits_for_its_next_reading():
    failed = [one for one in a_ready_set(MAY) if one.measure != "hole"] + [
        reading("hole", MAY, True, True, False)
    ]
    told = asked(as_of=MAY, readings=failed, heights=HELD, daily=WARM)
    soonest = SETTINGS["criterion.fresh_days_near_opening"] - SETTINGS["forecast.reading.off_days"]
    assert told.chance_by(MAY + (soonest - 1) * DAY) == 0
    assert max(told.holding_back, key=told.holding_back.get) == "holes"


def test_lips_over_their_limit_wait_for_sand():
    over = [one for one in a_ready_set(MAY) if one.measure != "lip"] + [reading("lip", MAY, *[1.0] * 19, 4.0)]
    told = asked(as_of=MAY, readings=over, heights=HELD, daily=WARM)
    assert told.p10 >= MAY + SETTINGS["forecast.dressing.hold_days"] * DAY
    assert max(told.holding_back, key=told.holding_back.get) == "levels"


def test_standing_water_holds_back_until_it_is_put_right():
    wet = [*a_ready_set(MAY), reading("standing_water_free", MAY, False)]
    told = asked(as_of=MAY, readings=wet, heights=HELD, daily=WARM)
    assert (told.p50 > MAY, max(told.holding_back, key=told.holding_back.get)) == (True, "water")


def test_a_green_still_cut_high_must_come_down_step_by_step():
    """8 to 5.5 mm in steps of a week, then a fortnight at the opening height."""
    told = asked(as_of=MAY, readings=a_ready_set(MAY), heights=[HeightOnDay(MAY, 8.0)], daily=WARM)
    assert told.p10 >= MAY + (3 * 7 + 14) * DAY
    assert set(told.holding_back) == {"height"}


def test_scalping_starts_the_fortnight_again():
    scalped = [*HELD[:-1], replace(HELD[-1], scalped=True)]
    told = asked(as_of=MAY, readings=a_ready_set(MAY), heights=scalped, daily=WARM)
    assert told.p10 >= HELD[-1].on + 14 * DAY


def test_shares_of_what_holds_back_add_up_to_one():
    assert sum(asked(as_of=MARCH, readings=a_poor_set(MARCH)).holding_back.values()) == pytest.approx(1)


def test_the_season_is_counted_from_the_gate_to_the_next_winter():
    told = asked()
    assert told.season_ends_on == date(2026, 11, 23)
    assert told.within_season == pytest.approx(told.chance_by(told.season_ends_on - DAY), abs=1e-4)


def test_a_gate_in_a_hard_winter_looks_to_the_season_after_it():
    told = asked(green("seed", "creeping bent", date(2025, 11, 1)), HARD_WINTER)
    assert told.gate.day < date(2026, 4, 1) < told.season_ends_on
    assert told.within_season > 0.5


def test_where_growth_never_stops_the_season_is_the_horizon():
    told = asked(green("seed", "creeping bent", date(2025, 9, 1), -32), (20.0,) * 12)
    assert (told.season_ends_on - told.as_of).days == 1200
    assert told.within_season == pytest.approx(told.chances[-1], abs=1e-4)


def test_a_quantile_beyond_the_horizon_is_none():
    told = asked(green("seed", "fine fescue"), settings=QUICK | {"forecast.horizon_days": 365})
    assert told.p90 is None


def test_a_place_too_cold_to_grow_never_opens_and_growth_holds_it_back():
    told = asked(normals=(2.0,) * 12, settings=QUICK | {"forecast.horizon_days": 300})
    assert (told.p50, told.p90) == (None, None)


def test_a_green_still_to_be_laid_is_forecast_from_its_laying():
    planned = asked(as_of=date(2025, 9, 1))
    assert (planned.as_of, planned.starts_on) == (date(2025, 9, 1), date(2025, 10, 20))
    assert planned.p10 >= planned.gate.day


def test_a_proposed_day_is_asked_for_too():
    assert set(asked(proposed=date(2026, 5, 2)).ready_by) == {date(2026, 5, 2)}


def test_a_late_spring_puts_it_off_and_an_early_one_brings_it_forward():
    days = [date(2026, 1, 1) + n * DAY for n in range(100)]
    april = date(2026, 4, 10)
    cold, warm = (
        asked(green(on=date(2025, 12, 1)), as_of=april, daily=dict.fromkeys(days, mean))
        for mean in (2.0, 9.0)
    )
    assert warm.p50 < cold.p50


@pytest.mark.parametrize(
    ("one", "sentence"),
    [
        (reading("hand_pull", date(2025, 10, 1), True), "on or after"),
        (reading("leaf_song", MARCH, True), "leaf_song"),
    ],
)
def test_a_reading_that_cannot_be_is_refused(one, sentence):
    with pytest.raises(ImpossibleValue, match=sentence):
        asked(as_of=MARCH, readings=[one])


@pytest.mark.parametrize("normals", [ENGLAND, HARD_WINTER])
@pytest.mark.parametrize("days", [0, 30, 200, 800])
def test_it_answers_on_any_day(normals, days):
    told = asked(normals=normals, as_of=date(2025, 10, 20) + days * DAY)
    assert told.p10 and told.p10 >= told.as_of
