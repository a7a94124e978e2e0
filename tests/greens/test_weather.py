"""Weather by hand: what is kept of a day, and what cannot have been."""

from datetime import date, timedelta

import pytest

from greens.actions.weather import record_day
from greens.models import TrailLine, WeatherDay
from greens.queries import weather
from growin.agronomy.fields import DetailError

pytestmark = pytest.mark.django_db


def test_the_mean_of_a_day_is_the_middle_of_lowest_and_highest(cast):
    row = record_day(club=cast.club, by=cast.staff, on=cast.today, min_c=3.2, max_c=12.4, rain_mm=0)
    row.refresh_from_db()
    assert (float(row.mean_c), row.source, row.is_estimated) == (7.8, "by hand", False)


def test_a_mean_that_was_read_is_kept(cast):
    row = record_day(club=cast.club, by=cast.staff, on=cast.today, min_c=3, max_c=12, mean_c=6.5)
    assert row.mean_c == 6.5


def test_a_second_writing_of_the_day_replaces_the_first_and_says_so(cast):
    for rain in (0, 4.5):
        record_day(club=cast.club, by=cast.staff, on=cast.today, rain_mm=rain)
    assert [float(row.rain_mm) for row in WeatherDay.objects.all()] == [4.5]
    line = TrailLine.objects.filter(noun="weatherday").first()
    assert line.changes == {"rain_mm": [0.0, 4.5]}


def test_the_same_figures_again_leave_no_line(cast):
    for _ in range(2):
        record_day(club=cast.club, by=cast.staff, on=cast.today, rain_mm=4.5, soil_100_c=7)
    assert TrailLine.objects.filter(noun="weatherday").count() == 1


WRONG = {
    "colder than any winter": ({"min_c": -80}, "min_c"),
    "the highest under the lowest": ({"min_c": 9, "max_c": 4}, "max_c"),
    "a mean outside the day": ({"min_c": 4, "max_c": 9, "mean_c": 12}, "max_c"),
    "120 % humidity": ({"humidity_percent": 120}, "humidity_percent"),
    "25 hours of sun": ({"sunshine_h": 25}, "sunshine_h"),
    "letters": ({"rain_mm": "wet"}, "rain_mm"),
    "nothing at all": ({}, ""),
    "a day to come": ({"rain_mm": 1, "on": date(2026, 4, 17)}, "on"),
    "a day of long ago": ({"rain_mm": 1, "on": date(1849, 1, 1)}, "on"),
}


@pytest.mark.parametrize(("given", "field"), WRONG.values(), ids=WRONG)
def test_what_cannot_have_been_is_refused(cast, given, field):
    with pytest.raises(DetailError) as refused:
        record_day(**{"club": cast.club, "by": cast.staff, "on": cast.today, **given})
    assert list(refused.value.errors) == [field]
    assert WeatherDay.objects.count() == 0


def test_days_that_were_not_written_down_are_gaps(cast):
    record_day(club=cast.club, by=cast.staff, on=cast.today - timedelta(days=1), rain_mm=2)
    days = weather.last_days(cast.club, cast.today, 3)
    assert [(on.day, row is not None) for on, row in days] == [(16, False), (15, True), (14, False)]
