"""Which programmes weather can still leave behind; how they are told is tried with redrawing."""

from datetime import date, timedelta

import pytest

from greens.models import Establishment
from growin.models import Decision, Pattern
from growin.queries.lag import goes_by_the_calendar

TODAY = date(2026, 4, 16)


@pytest.mark.parametrize(
    ("years", "pattern", "by_the_calendar"),
    [(3, Pattern.FULL, True), (3, Pattern.CLOSED, False), (2, Pattern.FULL, False)],
)
def test_weather_moves_no_step_of_a_green_in_play_that_grew_in_long_ago(years, pattern, by_the_calendar):
    laid = TODAY - timedelta(days=365 * years)
    opened = Decision(pk=1, establishment_id=1, pattern=pattern, from_day=laid + timedelta(days=200))
    rebuilt = Establishment(pk=1, established_on=laid)
    assert goes_by_the_calendar(rebuilt, {1: [opened]}, TODAY) == by_the_calendar
