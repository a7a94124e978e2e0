"""Outlines of greens and places within them; figures by plane geometry, sides of them by hand."""

import math

import pytest

from growin.agronomy.area import area_by_offsets, area_by_polygon
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.outline import clean_places, outline_by_area, outline_by_offsets, outline_by_radii

SQUARE = outline_by_radii([10, 10, 10, 10])
RADII = [9.5, 11, 12.5, 10, 8, 9, 13, 12]


def near(one, other) -> bool:
    return one == pytest.approx(other, abs=1e-9)


def test_the_first_radius_points_up_and_the_others_follow_clockwise():
    rounded = [(round(x, 9), round(y, 9)) for x, y in SQUARE.points_m]
    assert rounded == [(0, 10), (10, 0), (0, -10), (-10, 0)]


def test_an_outline_has_the_area_that_the_tape_found():
    """Polygon of the radii and trapezoidal rule, as the area itself is worked out from the same tape."""
    widths = [0, 12, 16, 15, 9, 0]
    assert outline_by_radii(RADII).area_m2 == pytest.approx(area_by_polygon(RADII))
    assert outline_by_offsets(widths, 4).area_m2 == pytest.approx(area_by_offsets(widths, 4))
    assert outline_by_area(450).area_m2 == pytest.approx(450)


def test_an_oval_stands_in_where_only_the_area_is_known_and_says_so():
    oval = outline_by_area(450)
    left, lower, right, upper = oval.box_m
    assert ((right - left) / (upper - lower)) == pytest.approx(1.25)
    assert oval.words == "an oval of the green's area, since its shape was not measured"
    assert near(oval.centre_m, (0, 0))


def test_the_centre_of_a_lopsided_green_lies_towards_its_broad_end():
    """A triangle's centre of gravity is the mean of its corners (Euclid): here a third along."""
    wedge = outline_by_offsets([12, 0], 9)
    assert near(wedge.centre_m, (-1.5, 0))


@pytest.mark.parametrize(
    ("place", "beside_m", "holds"),
    [
        ((0, 0), 0, True),
        ((4.9, 4.9), 0, True),
        ((5.1, 5.1), 0, False),
        ((5.1, 5.1), 0.2, True),
        ((0, 12), 1.9, False),
        ((0, 12), 2, True),
        ((-40, 0), 4, False),
    ],
)
def test_a_place_is_on_the_green_within_its_edge_or_a_little_beside(place, beside_m, holds):
    assert SQUARE.holds(place, beside_m) is holds


def test_a_bay_in_the_edge_is_off_the_green():
    """Every second radius short: between two long ones the straight edge runs far inside."""
    star = outline_by_radii([12, 3] * 4)
    turn = math.pi / 4
    assert not star.holds((6 * math.sin(turn), 6 * math.cos(turn)))
    assert star.holds((0, 6))


def test_places_stand_beside_their_values_to_a_tenth_of_a_metre():
    assert clean_places([[1.234, -2], None, [0, 13.9]], 3, SQUARE, "core") == [[1.2, -2], None, [0, 13.9]]
    assert clean_places([None, None], 5, None, "core") == []


@pytest.mark.parametrize(
    ("places", "outline", "sentence"),
    [
        ([[0, 0]], SQUARE, "number of places: 1 is not possible; it should be 2, one for each value"),
        (
            [None, [0, 40]],
            SQUARE,
            "place of core 2: 0 m across, 40 m up is not .* at most 4 m from",
        ),
        ([None, ["a", 1]], SQUARE, "place of core 2: .* two figures in metres"),
        ([None, [math.nan, 1]], SQUARE, "two figures in metres"),
        ([None, [1, 1]], None, "the area of the green is not known"),
    ],
)
def test_a_place_that_cannot_be_is_refused_with_its_figures(places, outline, sentence):
    with pytest.raises(ImpossibleValue, match=sentence):
        clean_places(places, 2, outline, "core")


@pytest.mark.parametrize(
    ("outline", "given"),
    [(outline_by_radii, ([3, 4],)), (outline_by_offsets, ([0, 0], 2)), (outline_by_area, (0,))],
)
def test_what_makes_no_figure_is_refused(outline, given):
    with pytest.raises(ImpossibleValue):
        outline(*given)
