"""The weather pages: who may write, and what a slip of the pen gets."""

from datetime import timedelta

import pytest
from django.urls import reverse

from greens.actions.weather import record_day
from greens.models import WeatherDay

pytestmark = pytest.mark.django_db


def address(cast, name: str) -> str:
    return reverse(name, args=[cast.club.slug])


def test_everybody_reads_the_weather_and_greenstaff_write_it(cast, as_):
    roles = ("head", "staff", "committee", "adviser", "outsider")
    assert [as_(role).get(address(cast, "weather")).status_code for role in roles] == [
        200,
        200,
        200,
        200,
        404,
    ]
    assert [as_(role).get(address(cast, "weather_day")).status_code for role in roles] == [
        200,
        200,
        403,
        403,
        404,
    ]


def test_a_day_is_written_with_a_decimal_comma(cast, as_):
    figures = {"on": "2026-04-15", "min_c": "−1,5", "max_c": "9", "rain_mm": "0"}
    as_("staff").post(address(cast, "weather_day"), figures)
    row = WeatherDay.objects.get()
    assert [float(one) for one in (row.min_c, row.max_c, row.mean_c, row.rain_mm)] == [-1.5, 9, 3.8, 0]


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ({"rain_mm": "rain"}, "is not a number"),
        ({"rain_mm": "900"}, "cannot be right"),
        ({"min_c": "9", "max_c": "4"}, "at least the lowest of the day, 9"),
        ({"on": "2026-04-17", "rain_mm": "1"}, "lies in the future"),
        ({"on": "1800-01-01", "rain_mm": "1"}, "Sun 1 January 1950 or later"),
        ({}, "enter at least one figure"),
    ],
)
def test_a_slip_of_the_pen_is_refused_in_a_sentence(cast, as_, given, sentence):
    page = as_("staff").post(address(cast, "weather_day"), {"on": "2026-04-16", **given})
    assert sentence in page.content.decode()
    assert WeatherDay.objects.count() == 0


def test_the_list_shows_gaps_and_costs_the_same_when_it_is_full(cast, as_, django_assert_num_queries):
    client = as_("committee")
    client.get(address(cast, "weather"))
    with django_assert_num_queries(7):
        page = client.get(address(cast, "weather"))
    assert page.content.decode().count("Gap") == 30
    for day in range(1, 17):
        record_day(club=cast.club, by=cast.head, on=cast.today.replace(day=day), rain_mm=1)
    with django_assert_num_queries(7):
        page = client.get(address(cast, "weather"))
    assert page.content.decode().count("Gap") == 14


def test_the_mean_follows_when_an_extreme_is_corrected(cast, as_):
    record_day(club=cast.club, by=cast.head, on=cast.today, min_c=1, max_c=7)
    page = as_("staff").get(address(cast, "weather_day"))
    sent = {name: value for name, value in page.context["form"].initial.items() if value not in (None, False)}
    as_("staff").post(address(cast, "weather_day"), sent | {"max_c": "15"})
    assert WeatherDay.objects.get(on=cast.today).mean_c == 8


def test_figures_of_one_day_never_land_on_another(cast, as_):
    yesterday = cast.today - timedelta(days=1)
    record_day(club=cast.club, by=cast.head, on=yesterday, min_c=7, max_c=14)
    sent = {"opened_on": cast.today, "on": yesterday, "min_c": "5", "max_c": "12"}
    page = as_("staff").post(address(cast, "weather_day"), sent).content.decode()
    assert "has figures of its own; open that day from the list to change them." in page
    assert WeatherDay.objects.get(on=yesterday).min_c == 7
