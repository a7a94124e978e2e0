"""Readings of one measure against their rule on their clock, as a picture and as a table."""

from datetime import date, timedelta
from xml.etree import ElementTree

import pytest
from django.urls import reverse

from growin.agronomy.climate import Climate, degree_days
from growin.agronomy.measures import MEASURES
from growin.charts.reading_line import reading_line_svg
from growin.queries.reading_line import reading_line
from tests.cast import NORMALS_C, laid_green
from tests.growin.ripe import READINGS, read

pytestmark = pytest.mark.django_db
FIRST, SECOND = date(2026, 3, 10), date(2026, 4, 9)


@pytest.fixture
def rooted(cast):
    read(cast, "rooting_depth", [30, 42, 38, 45, 40], FIRST)
    read(cast, "rooting_depth", [52, 60, 48, 55, 58], SECOND)


def line_of(cast, measure: str = "rooting_depth"):
    return reading_line(cast.green, MEASURES[measure], cast.today)


def address(cast, name: str = "reading_line", *args) -> str:
    return reverse(name, args=[cast.club.slug, cast.green.pk, *args])


def test_each_set_stands_at_its_degree_days_since_laying(cast, rooted):
    """°C·days above 0 are the sum of daily means: the normals of the days between, in a mild winter."""
    line, climate = line_of(cast), Climate(NORMALS_C, 3.0)
    laid = cast.establishment.established_on
    wanted = [climate.sum_between(degree_days(0), laid, on) for on in (FIRST, SECOND)]
    assert [one.clock for one in line.points] == pytest.approx(wanted)
    assert line.clock_unit == "°C·days"


def test_the_mean_stands_with_its_interval_and_the_limit_with_its_words(cast, rooted):
    """Student t with 4 degrees of freedom at 90 %: 2.132 (printed tables)."""
    line = line_of(cast)
    last, spread = line.points[-1], 4.774934554525329  # standard deviation of 52, 60, 48, 55, 58
    half = 2.132 * spread / 5**0.5
    assert (last.centre, last.values) == (54.6, (52, 60, 48, 55, 58))
    assert (last.low, last.high) == pytest.approx((54.6 - half, 54.6 + half), abs=0.02)
    assert [(one.at, one.words) for one in line.limits] == [(50, "50 mm wanted in 4 of 5 cores")]


def test_the_picture_is_told_in_words(cast, rooted):
    assert line_of(cast).in_words == (
        "White roots by °C·days since laying on Mon 20 October. 2 sets from Tue 10 March to Thu 9 April. "
        "The last 54.6 mm, likely 50 to 59.2 mm. Asked: 50 mm wanted in 4 of 5 cores."
    )


@pytest.mark.parametrize("measure", sorted({*READINGS, "green_speed"}))
@pytest.mark.parametrize("narrow", [False, True])
def test_every_shape_of_measure_can_be_drawn(cast, measure, narrow):
    values = READINGS.get(measure, [{"first": [2.5, 2.6, 2.4], "second": [2.5, 2.4, 2.6]}])
    read(cast, measure, values, SECOND)
    drawn = ElementTree.fromstring(reading_line_svg(line_of(cast, measure), narrow))
    assert drawn.tag.endswith("svg")


def test_the_list_of_one_measure_shows_picture_and_table(cast, rooted, as_):
    shown = as_("committee").get(address(cast, "readings"), {"measure": "rooting_depth"}).content.decode()
    assert address(cast, "reading_line", "rooting_depth") in shown
    assert "The sets as a table" in shown
    assert "54.6 mm" in shown
    everything = as_("committee").get(address(cast, "readings")).content.decode()
    assert "The sets as a table" not in everything


@pytest.mark.parametrize("measure", ["", "no-such-measure", "x" * 300])
def test_a_measure_that_is_none_shows_the_list_alone(cast, rooted, as_, measure):
    answer = as_("staff").get(address(cast, "readings"), {"measure": measure})
    assert (answer.status_code, "The sets as a table" in answer.content.decode()) == (200, False)


def test_without_readings_normals_or_turf_there_is_no_picture(cast, as_):
    place = address(cast, "reading_line", "rooting_depth")
    assert as_("staff").get(place).status_code == 404
    read(cast, "rooting_depth", [52, 60, 48, 55, 58], SECOND)
    assert as_("staff").get(place)["Content-Type"] == "image/svg+xml"
    cast.club.normals.all().delete()
    assert as_("staff").get(place).status_code == 404
    bare = laid_green(cast.club, "Bare", established_on=None)
    assert reading_line(bare.green, MEASURES["lip"], cast.today) is None


def test_what_was_taken_back_is_not_drawn(cast, rooted):
    cast.establishment.reading_sets.filter(on=FIRST).update(
        taken_back_at="2026-04-16T09:00:00Z", taken_back_by=cast.head
    )
    assert [one.on for one in line_of(cast).points] == [SECOND]


def test_the_line_costs_the_same_for_two_sets_and_for_many(cast, rooted, django_assert_num_queries):
    with django_assert_num_queries(5):
        line_of(cast)
    for days in range(1, 6):
        read(cast, "rooting_depth", [52, 60, 48, 55, 58], SECOND + timedelta(days=days))
    with django_assert_num_queries(5):
        line_of(cast)
