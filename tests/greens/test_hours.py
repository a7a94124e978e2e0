"""The clock on the wall of a club, on days of 23, 24 and 25 hours, in both hemispheres.

The changes of 2026 are those of the IANA time zone database: London on 29 March and 25 October, Auckland on
5 April (back) and 27 September (forward).
"""

from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

import pytest

from greens import hours

LONDON, AUCKLAND = ZoneInfo("Europe/London"), ZoneInfo("Pacific/Auckland")
HALF_PAST_SIX, TEN, SIX = time(6, 30), time(22), time(6)


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


@pytest.mark.parametrize(
    ("zone", "now", "next_one"),
    [
        (LONDON, "2026-03-28T06:30", "2026-03-29T05:30"),  # 23 hours on
        (LONDON, "2026-03-29T05:29", "2026-03-29T05:30"),
        (LONDON, "2026-10-24T05:30", "2026-10-25T06:30"),  # 25 hours on
        (AUCKLAND, "2026-04-03T17:30", "2026-04-04T18:30"),  # 25 hours on
        (AUCKLAND, "2026-09-25T18:30", "2026-09-26T17:30"),  # 23 hours on
    ],
)
def test_half_past_six_stays_half_past_six_when_the_clocks_change(zone, now, next_one):
    found = hours.next_daily(utc(now), zone, HALF_PAST_SIX)
    assert found == utc(next_one)
    assert found.astimezone(zone).time() == HALF_PAST_SIX


def test_a_time_that_the_clock_leaves_out_comes_an_hour_later_on_the_wall():
    found = hours.next_daily(utc("2026-03-28T12:00"), LONDON, time(1, 30))
    assert found == utc("2026-03-29T01:30")
    assert found.astimezone(LONDON).time() == time(2, 30)


def test_a_time_that_the_clock_shows_twice_counts_the_first_time_only():
    first = hours.next_daily(utc("2026-10-24T12:00"), LONDON, time(1, 30))
    assert first == utc("2026-10-25T00:30")
    assert hours.next_daily(first, LONDON, time(1, 30)) == utc("2026-10-26T01:30")


@pytest.mark.parametrize(
    ("now", "next_one"),
    [
        ("2026-11-28T12:00", "2026-11-30T06:30"),
        ("2026-11-30T06:29", "2026-11-30T06:30"),
        ("2026-11-30T06:30", "2026-12-07T06:30"),
        ("2026-03-28T12:00", "2026-03-30T05:30"),
    ],
)
def test_once_a_week_comes_on_its_day(now, next_one):
    monday = 0
    assert hours.next_weekly(utc(now), LONDON, HALF_PAST_SIX, monday) == utc(next_one)


@pytest.mark.parametrize(
    ("zone", "now", "goes_at"),
    [
        (LONDON, "2026-11-28T12:00", "2026-11-28T12:00"),
        (LONDON, "2026-11-28T22:00", "2026-11-29T06:00"),
        (LONDON, "2026-11-29T05:59", "2026-11-29T06:00"),
        (LONDON, "2026-11-29T06:00", "2026-11-29T06:00"),
        (LONDON, "2026-03-28T23:00", "2026-03-29T05:00"),  # the night has 7 hours of its 8
        (LONDON, "2026-10-24T22:00", "2026-10-25T06:00"),  # and here 9
        (AUCKLAND, "2026-09-26T10:00", "2026-09-26T17:00"),
    ],
)
def test_nothing_goes_out_in_quiet_hours(zone, now, goes_at):
    assert hours.after_quiet(utc(now), zone, TEN, SIX) == utc(goes_at)


def test_quiet_hours_may_lie_within_a_day_or_be_none():
    noon = utc("2026-11-28T12:30")
    assert hours.after_quiet(noon, LONDON, time(12), time(13)) == utc("2026-11-28T13:00")
    assert hours.after_quiet(noon, LONDON, None, None) == noon
    assert hours.after_quiet(noon, LONDON, TEN, TEN) == noon


def test_a_time_of_a_day_is_the_same_in_both_directions():
    assert hours.at(AUCKLAND, date(2026, 4, 5), SIX).astimezone(AUCKLAND).date() == date(2026, 4, 5)
