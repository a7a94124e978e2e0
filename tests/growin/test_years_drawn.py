"""The years as pictures: sets, line and band, years side by side, and what they say in words."""

from datetime import date, timedelta
from xml.etree import ElementTree

import pytest

from greens import units
from greens.choices import Units
from growin.charts.trend import span_of, trend_svg
from growin.charts.years import years_svg
from growin.queries.years import Followed, Year, Years
from tests.entries import at
from tests.growin.ripe import read

FIRST = date(2024, 5, 1)
HAMMER, TOP = "0.5 kg hammer", "0 to 20 mm, 440 °C"


def followed(measure="hardness", way=HAMMER, values=(76, 79, 78, 83, 84), days=200) -> Followed:
    return Followed(measure, way, [(FIRST + timedelta(days=days * n), one) for n, one in enumerate(values)])


def year(of: int, **more) -> Year:
    return Year(date(of, 1, 1), date(of, 12, 31), **more)


TWO_YEARS = Years(
    (),
    [
        year(2026, n_kg_ha=66, sand_kg_m2=7.04, days_written=76, days_off=10, is_running=True),
        year(2025, n_kg_ha=9.4),
    ],
    (),
)


def test_it_says_sets_line_and_what_is_asked():
    """The first day's figures are scipy's intercept and its interval."""
    assert followed().in_words == (
        "Hardness, 0.5 kg hammer: 5 sets from Wed 1 May 2024 to Fri 10 July 2026, and a straight line "
        "through them from 76 gravities (likely 73.4 to 78.6 gravities) to 84 gravities (likely 81.4 to "
        "86.6 gravities); asked: at least 80 gravities, at most 100 gravities."
    )


@pytest.mark.parametrize(
    ("measure", "way", "limits"),
    [
        ("organic_matter", TOP, [(6, "wanted under 6 %")]),
        ("organic_matter", "40 to 60 mm", []),
        ("moisture", "", [(15, "at least 15 % in summer"), (25, "at most 25 % in summer")]),
        ("green_speed", "", []),
    ],
)
def test_where_it_should_lie_is_named(measure, way, limits):
    assert followed(measure, way).limits == limits


def test_every_set_stands_in_the_table_beside_the_line_of_its_day():
    rows = followed().rows
    assert [(on, value) for on, value, _ in rows] == followed().points[::-1]
    assert all(line.on == on and line.low < line.mean < line.high for on, _, line in rows)


def test_noise_is_not_drawn_as_a_change():
    """Speeds within 60 mm of 2.75 m fill less than a third of the height."""
    low, high = span_of(followed("green_speed", "", (2.78, 2.73, 2.74, 2.76)))
    assert high - low > 0.5


def test_a_limit_within_reach_comes_into_sight_and_one_far_off_does_not():
    assert span_of(followed())[0] < 76
    assert [span_of(followed(values=(76, 79, 78, 83, top)))[1] > 100 for top in (84, 96)] == [False, True]


@pytest.mark.parametrize("narrow", [False, True])
@pytest.mark.parametrize(
    "one",
    [
        followed(),
        followed("organic_matter", TOP, (5.1, 5.0, 4.8, 4.6), 300),
        followed(values=(80,)),
        followed(values=(80, 80, 80, 80)),
    ],
    ids=["usual", "over years", "one set", "all alike"],
)
def test_it_draws_whatever_was_read(one, narrow):
    drawn = trend_svg(one, narrow)
    assert ElementTree.fromstring(drawn).tag.endswith("svg")
    assert drawn == trend_svg(one, narrow)


@pytest.mark.parametrize("narrow", [False, True])
@pytest.mark.parametrize("known", [TWO_YEARS, Years((), [year(2026)], ())], ids=["two", "one empty"])
def test_years_are_drawn_side_by_side(known, narrow):
    assert ElementTree.fromstring(years_svg(known, narrow)).tag.endswith("svg")


def test_the_years_are_said_in_a_sentence():
    assert TWO_YEARS.in_words == (
        "Year against year: 2025 9 kg/ha of nitrogen, 0 kg/m² of sand, days kept off none written; 2026 "
        "so far 66 kg/ha of nitrogen, 7 kg/m² of sand, days kept off 10 of 76."
    )


def test_where_inches_are_read_the_picture_says_so():
    metric = trend_svg(followed("infiltration", "", (200, 210, 250, 260)))
    with units.shown_in(Units.US):
        assert trend_svg(followed("infiltration", "", (200, 210, 250, 260))) != metric
        assert "in/h" in units.said(followed("infiltration", "", (200, 210, 250, 260)).in_words)


@pytest.mark.django_db
def test_the_page_shows_the_picture_of_its_own_way_with_words_and_table(cast, as_):
    for n, percent in enumerate((5.1, 5.0, 4.8, 4.6)):
        protocol = {"depth_from_mm": 0, "depth_to_mm": 20, "method": "440 °C"}
        on = cast.today - timedelta(days=60 * (3 - n))
        read(cast, "organic_matter", [percent] * 3, on, protocol=protocol)
    client, place = as_("committee"), at(cast, "trend_picture", cast.green.pk, "organic_matter")
    page = client.get(at(cast, "years", cast.green.pk)).content.decode()
    assert f'src="{place}?way=0%20to%2020%20mm%2C%20440%20%C2%B0C"' in page
    assert "Organic matter by loss on ignition, 0 to 20 mm, 440 °C: 4 sets from " in page
    assert client.get(place, {"way": TOP})["Content-Type"] == "image/svg+xml"
    assert client.get(place, {"way": "20 to 40 mm"}).status_code == 404
