"""The area of a green from a tape."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.area import (
    area_by_offsets,
    area_by_polygon,
    area_by_radii,
    area_by_sectors,
    compare_radii_methods,
)
from growin.agronomy.impossible import ImpossibleValue

radii = st.lists(st.floats(1, 50), min_size=3, max_size=40)


def ellipse_radii(a_m: float, b_m: float, count: int) -> list[float]:
    """Distances from the middle of an ellipse to its edge at equal angles."""
    angles = (2 * math.pi * step / count for step in range(count))
    return [a_m * b_m / math.hypot(b_m * math.cos(t), a_m * math.sin(t)) for t in angles]


@given(radii)
def test_the_average_radius_never_reads_above_the_sectors(radii_m):
    compared = compare_radii_methods(radii_m)
    assert 0 < compared.average_m2 <= compared.sectors_m2 * (1 + 1e-12)
    assert compared.off_percent <= 0
    assert compared.polygon_m2 <= compared.sectors_m2


def test_all_ways_agree_on_a_circle():
    assert area_by_radii([8] * 12) == pytest.approx(64 * math.pi)
    assert area_by_sectors([8] * 12) == pytest.approx(64 * math.pi)
    assert area_by_polygon([8] * 3600) == pytest.approx(64 * math.pi, rel=1e-5)


def test_on_a_long_green_the_sectors_are_right_and_the_average_is_low():
    # an ellipse of half-axes 15 and 8 m holds pi x 15 x 8 m²
    compared = compare_radii_methods(ellipse_radii(15, 8, 36))
    assert compared.sectors_m2 == pytest.approx(math.pi * 120, rel=1e-6)
    assert compared.off_percent == pytest.approx(-4.8, abs=0.05)


def test_a_polygon_of_four_equal_radii_is_a_square():
    assert area_by_polygon([1, 1, 1, 1]) == pytest.approx(2)


@given(st.lists(st.floats(0, 100), min_size=2, max_size=30), st.floats(0.1, 20))
def test_offsets_reckon_alike_from_either_end(offsets_m, spacing_m):
    there = area_by_offsets(offsets_m, spacing_m)
    assert there == pytest.approx(area_by_offsets(offsets_m[::-1], spacing_m), abs=1e-9)
    assert 0 <= there <= max(offsets_m) * spacing_m * (len(offsets_m) - 1) * (1 + 1e-12) + 1e-9


@pytest.mark.parametrize(
    "refused",
    [
        lambda: area_by_radii([3, 4]),
        lambda: area_by_radii([3, 4, 0]),
        lambda: area_by_sectors([3, 4, -1]),
        lambda: area_by_polygon([]),
        lambda: area_by_offsets([3], 1),
        lambda: area_by_offsets([3, -1], 1),
        lambda: area_by_offsets([3, 1], 0),
        lambda: area_by_offsets([3, float("nan")], 1),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
