"""Frost, heat and long wet as the days on record have them.

The thresholds are our own judgement but for frost: a minimum at or under 0 °C (common practice). What is
said of frost is the USGA's: no traffic on frozen leaf, nor in a thaw over a frozen layer.
"""

from datetime import date, timedelta

import pytest

from growin.agronomy.weather_flags import DEFAULTS, FROST, HEAT, WET, DayOnRecord, flags

TODAY = date(2026, 4, 16)
SETTINGS = {key: one.value for key, one in DEFAULTS.items()}
MILD = {"min_c": 5.0, "max_c": 14.0, "rain_mm": 1.0}


def record(**by_days_back) -> list[DayOnRecord]:
    """Thirty mild days up to today; ``back_3={"min_c": -1}`` makes another of the one three days ago."""
    differs = {int(name.removeprefix("back_")): said for name, said in by_days_back.items()}
    return [
        DayOnRecord(TODAY - timedelta(days=back), **(MILD | differs.get(back, {})))
        for back in range(30, -1, -1)
    ]


def raised(days) -> list[tuple[str, date]]:
    return [(one.kind, one.since) for one in flags(days, TODAY, 0, SETTINGS)]


def test_mild_days_raise_nothing():
    assert raised(record()) == []
    assert raised([]) == []


@pytest.mark.parametrize(("min_c", "raises"), [(0.1, False), (0, True), (-6, True)])
def test_frost_is_a_minimum_at_or_under_nothing(min_c, raises):
    assert (raised(record(back_0={"min_c": min_c})) == [(FROST, TODAY)]) is raises


def test_a_frosty_week_is_one_run_told_by_its_first_day():
    week = {f"back_{n}": {"min_c": -2} for n in (0, 2, 6)}
    assert raised(record(**week)) == [(FROST, TODAY - timedelta(days=6))]


def test_after_a_week_without_frost_the_next_is_a_run_of_its_own():
    assert raised(record(back_0={"min_c": -2}, back_8={"min_c": -2})) == [(FROST, TODAY)]


def test_what_ended_two_days_ago_is_no_news():
    assert raised(record(back_2={"min_c": -2})) == []


def test_one_hot_day_is_not_heat_and_two_are():
    assert raised(record(back_0={"max_c": 30})) == []
    hot = record(back_0={"max_c": 28}, back_1={"max_c": 31.5})
    (flag,) = flags(hot, TODAY, 0, SETTINGS)
    assert (flag.kind, flag.since, flag.words) == (HEAT, TODAY - timedelta(days=1), "Heat: up to 31.5 °C")


def test_long_wet_is_sixty_millimetres_in_a_week():
    assert raised(record(back_0={"rain_mm": 53.9})) == []
    (flag,) = flags(record(back_0={"rain_mm": 54}), TODAY, 0, SETTINGS)
    assert (flag.kind, flag.words) == (WET, "Long wet: 60 mm of rain in seven days")


def test_a_wet_fortnight_is_told_by_its_first_day():
    wet = record(**{f"back_{n}": {"rain_mm": 12} for n in range(10)})
    assert raised(wet) == [(WET, TODAY - timedelta(days=5))]


def test_what_was_not_measured_raises_nothing():
    assert raised(record(back_0={"min_c": None, "max_c": None, "rain_mm": None})) == []
