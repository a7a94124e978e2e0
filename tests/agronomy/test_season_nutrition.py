"""A season's feeding added up. Release: even over the declared weeks (common practice of labels)."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as some

from growin.agronomy.season_nutrition import (
    DEFAULTS,
    Given,
    belongs_with,
    free,
    in_play_band,
    running,
    season_of,
    still_bound,
    total,
)
from growin.agronomy.settings_table import default_values

SETTINGS = default_values()
LAID, NORTH, SOUTH = date(2025, 10, 20), 54.0, -44.5
FED = date(2026, 4, 1)


def days_on(days: int) -> date:
    return FED + timedelta(days=days)


@pytest.mark.parametrize(("days", "kg"), [(-1, 0), (0, 8), (28, 12), (35, 13), (56, 16), (400, 16)])
def test_slow_nitrogen_comes_free_evenly_over_its_weeks(days, kg):
    """16 kg N/ha, half of it slow over 8 weeks."""
    assert free([Given(FED, 16, 8, 8)], days_on(days)) == pytest.approx(kg)


def test_quick_nitrogen_is_free_on_its_day():
    one = [Given(FED, 6)]
    assert (free(one, FED), still_bound(one, FED)) == (6, 0)


def test_what_is_free_and_what_is_bound_are_all_that_was_given():
    fed = [Given(FED, 16, 8, 8), Given(days_on(10), 6)]
    for days in (0, 5, 10, 30, 60):
        assert free(fed, days_on(days)) + still_bound(fed, days_on(days)) == pytest.approx(
            total(fed, FED, days_on(days))
        )


def test_a_span_of_days_holds_its_first_and_last_day():
    fed = [Given(days_on(n), 5) for n in (0, 10, 20)]
    assert total(fed, days_on(0), days_on(20)) == 15
    assert total(fed, days_on(1), days_on(19)) == 5


@pytest.mark.parametrize(
    ("on", "latitude", "season"),
    [
        (date(2026, 4, 16), NORTH, (LAID, date(2026, 10, 19))),
        (date(2026, 11, 1), NORTH, (date(2026, 10, 20), date(2026, 12, 31))),
        (date(2027, 4, 16), NORTH, (date(2027, 1, 1), date(2027, 12, 31))),
        (date(2027, 4, 16), SOUTH, (date(2026, 10, 20), date(2027, 6, 30))),
        (date(2027, 8, 1), SOUTH, (date(2027, 7, 1), date(2028, 6, 30))),
    ],
)
def test_the_first_season_is_a_year_from_laying_then_from_midwinter_to_midwinter(on, latitude, season):
    assert season_of(LAID, on, latitude) == season


@pytest.mark.parametrize(
    ("species", "band"),
    [
        ("fine fescue", (30, 60)),  # Britain, common practice
        ("fescue/bent", (50, 90)),  # Britain, common practice
        ("creeping bent", (50, 100)),  # USGA 2023
        ("annual meadow grass/bent", (80, 140)),  # Britain, common practice
        ("annual meadow grass", (100, 200)),  # Rutgers
    ],
)
def test_once_in_play_each_grass_has_its_band(species, band):
    assert in_play_band(species, SETTINGS) == band


def test_with_nitrogen_belong_half_its_potassium_and_an_eighth_of_its_phosphorus():
    """Shares of what is taken up: Woods, advisory manual."""
    assert [belongs_with(element, 80, SETTINGS) for element in ("K", "P", "Ca", "Mg", "Fe")] == [
        40, 10, 10, 4, None,
    ]  # fmt: skip


def test_the_running_total_begins_with_nothing_and_ends_with_all():
    fed = [Given(days_on(20), 5), Given(days_on(10), 6), Given(days_on(99), 9)]
    assert running(fed, FED, days_on(30)) == [
        (FED, 0.0), (days_on(10), 6.0), (days_on(20), 11.0), (days_on(30), 11.0),
    ]  # fmt: skip


@given(some.floats(0, 100), some.floats(0, 1), some.floats(0, 30), some.integers(0, 400))
def test_never_more_is_free_than_was_given(kg, slow, weeks, days):
    one = Given(FED, kg, kg * slow, weeks)
    assert 0 <= one.free_kg_ha(days_on(days)) <= kg + 1e-9


def test_every_figure_has_its_range():
    assert all(one.low <= one.value <= one.high for one in DEFAULTS.values())
