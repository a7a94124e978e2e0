"""A set on the outline of its green: weak places by shape, size and word, with the numbers beside."""

from datetime import date
from xml.etree import ElementTree

import pytest
from django.urls import reverse
from matplotlib.figure import Figure

from greens.actions.area import measure_area
from greens.actions.readings import record_readings
from greens.choices import AreaMethod
from greens.queries import settings as constants
from growin.agronomy.rules import BoundRule, CountRule, LargestRule, RangeRule, ShownRule, YesRule
from growin.agronomy.settle import state_of_value
from growin.charts import set_map as chart
from growin.queries.set_map import set_map

PLACES = [[0, 0], [3, -2.5], None, [-6, 4], [2, 8]]


@pytest.fixture
def rooted(cast):
    """Five cores, the second too short, the third of a place nobody noted; 50 mm are wanted."""
    radii = [12, 12.5, 11, 10.5, 12, 13, 12.5, 11]
    measured = {"method": AreaMethod.RADII, "measured_on": date(2025, 9, 1)}
    measure_area(green=cast.green, by=cast.head, values_m=radii, **measured)
    known = {"green": cast.green, "by": cast.staff, "taken_by": cast.staff, "on": cast.today}
    return record_readings(**known, measure="rooting_depth", values=[62, 31, 55, 58, 71], places=PLACES)


@pytest.mark.parametrize(
    ("rule", "met", "not_met"),
    [
        (CountRule(4, 5, "Roots in", "cores", at_least=50), 50, 49),
        (CountRule(9, 10, "Holds at", "points"), True, False),
        (LargestRule(3, 20, "Gap", "joint places"), 3, 3.5),
        (BoundRule(90, 86, 10, 25, 0.95), {"hits": 45, "points": 50}, {"hits": 22, "points": 25}),
        (YesRule("Scalped", "Not scalped", wanted=False), False, True),
        (RangeRule(20, 60, 9, "Moisture", "places", "%"), 60, 61),
    ],
)
def test_one_place_meets_its_rule_or_does_not(rule, met, not_met):
    assert [state_of_value([rule], one) for one in (met, not_met)] == ["met", "not met"]


def test_a_reading_that_is_only_shown_has_no_weak_place():
    rolls = {"first": [2.9], "second": [2.8]}
    assert [state_of_value(rules, rolls) for rules in ([], [ShownRule("green_speed", 1)])] == ["", ""]


@pytest.mark.django_db
def test_the_weak_place_is_named_with_its_figure_and_its_place(cast, rooted):
    drawn = set_map(rooted, constants.in_force(cast.club, cast.today, cast.green))
    assert [one.state for one in drawn.marks] == ["met", "not met", "met", "met", "met"]
    assert drawn.in_words == (
        "White roots at 4 places of the green. Not met: 31 mm at 3 m right, 2.5 m down."
    )


@pytest.mark.django_db
def test_weak_places_are_larger_and_open_and_say_so(cast, rooted):
    figure = Figure()
    chart.draw(figure, set_map(rooted, constants.in_force(cast.club, cast.today, cast.green)))
    marks = [line for line in figure.axes[0].lines if line.get_marker() == "o"]
    weak, *sound = sorted(marks, key=lambda line: -line.get_markersize())
    assert (weak.get_xydata().tolist(), weak.get_markerfacecolor()) == ([[3, -2.5]], chart.ink.PAPER)
    assert [line.get_markerfacecolor() for line in sound] == [chart.ink.INK] * 3
    texts = [text.get_text() for text in figure.axes[0].texts]
    assert {"31 mm, not met", "62 mm", "5 m"} <= set(texts)
    assert "N" not in texts


@pytest.mark.django_db
def test_north_is_drawn_only_where_it_is_known(cast, rooted):
    rooted.green.bearing_deg = 90
    figure = Figure()
    chart.draw(figure, set_map(rooted, constants.in_force(cast.club, cast.today, cast.green)))
    north = next(text for text in figure.axes[0].texts if text.get_text() == "N")
    tip, tail = north.xy, north.get_position()
    assert (round(tip[0] - tail[0], 2), round(tip[1] - tail[1], 2)) == (-1.6, 0)


@pytest.mark.django_db
def test_the_map_stands_on_the_page_with_its_words_and_its_table(cast, rooted, as_):
    slug = cast.club.slug
    page = as_("committee").get(reverse("reading", args=[slug, rooted.pk])).content.decode()
    assert 'alt="White roots at 4 places of the green. Not met: 31 mm at 3 m right, 2.5 m down."' in page
    assert "<td>not said</td>" in page
    picture = as_("committee").get(reverse("reading_map", args=[slug, rooted.pk]))
    assert picture["Content-Type"] == "image/svg+xml"
    assert ElementTree.fromstring(picture.content).tag.endswith("svg")
    assert picture.content == as_("committee").get(reverse("reading_map", args=[slug, rooted.pk])).content


@pytest.mark.django_db
def test_a_set_without_places_has_no_map(cast, as_):
    known = {"green": cast.green, "by": cast.staff, "taken_by": cast.staff, "on": cast.today}
    row = record_readings(**known, measure="rooting_depth", values=[62])
    assert row.places == []
    assert as_("staff").get(reverse("reading_map", args=[cast.club.slug, row.pk])).status_code == 404
