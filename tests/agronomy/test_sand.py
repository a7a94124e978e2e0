"""Dressing, coring and organic matter."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.sand import (
    coring_of_area,
    hollow_coring,
    organic_matter_percent,
    sand_of_season,
    topdressing,
    topdressing_depth,
    topdressing_dilution,
    topdressing_mass,
)

depth = st.floats(0, 100)
density = st.floats(1, 2)


def test_a_millimetre_of_dry_sand_is_about_sixteen_tonnes_a_hectare():
    # common practice: 1 mm is 10 m³/ha, about 16 t/ha at 1.6 t/m³
    assert topdressing(1, 10_000) == (10.0, 16.0)


@given(depth, density)
def test_depth_and_mass_turn_into_each_other(depth_mm, bulk_density_t_m3):
    mass_kg_m2 = topdressing_mass(depth_mm, bulk_density_t_m3)
    assert topdressing_depth(mass_kg_m2, bulk_density_t_m3) == pytest.approx(depth_mm)
    assert topdressing(depth_mm, 1000, bulk_density_t_m3).mass_t == pytest.approx(mass_kg_m2)


@given(st.floats(4, 20), st.floats(25, 100), st.floats(25, 100))
def test_holes_times_their_area_is_the_surface_opened(tine_mm, spacing_mm, row_mm):
    coring = hollow_coring(tine_mm, spacing_mm, row_mm, 100)
    opened = coring.holes_per_m2 * math.pi * (tine_mm / 1000) ** 2 / 4
    assert coring.surface_percent == pytest.approx(100 * opened)
    assert coring.fill_m3_per_100_m2 == pytest.approx(100 * opened * 0.1)
    assert 0 < coring.surface_percent <= 100


def test_without_a_depth_nothing_is_said_of_the_fill():
    assert hollow_coring(12, 50, 50).fill_m3_per_100_m2 is None


@given(st.floats(0, 100), st.floats(1, 100), st.lists(st.floats(0, 1), min_size=2, max_size=2))
def test_more_sand_never_leaves_more_organic_matter(om_percent, depth_mm, shares):
    less, more = sorted(shares)
    diluted = [topdressing_dilution(om_percent, depth_mm, depth_mm * share) for share in (less, more)]
    assert om_percent >= diluted[0] >= diluted[1] >= 0


@given(st.floats(0.1, 100), st.floats(0, 1))
def test_loss_on_ignition_is_a_share(oven_dry_g, kept):
    assert 0 <= organic_matter_percent(oven_dry_g, oven_dry_g * kept) <= 100


@pytest.mark.parametrize(
    "refused",
    [
        lambda: topdressing(-1, 100),
        lambda: topdressing(1, 100, 3),
        lambda: topdressing_depth(1, 0),
        lambda: hollow_coring(60, 50, 50),
        lambda: hollow_coring(12, 0, 50),
        lambda: hollow_coring(12, 50, 50, -1),
        lambda: organic_matter_percent(10, 10.1),
        lambda: organic_matter_percent(0, 0),
        lambda: topdressing_dilution(5, 20, 21),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()


def test_cores_of_a_green_are_its_pattern_times_its_area():
    # By hand: 12 mm holes at 50 x 50 mm open 4.524 %, 100 mm deep on 450 m² that is 2.036 m³, 3.257 t at 1.6
    cores = coring_of_area(12, 50, 50, 100, 450)
    assert cores == pytest.approx((2.0358, 2.0358, 3.2572), abs=1e-4)


def test_the_sand_of_a_season_is_the_sum_of_its_passes():
    # USGA 2014, Nebraska: 6.2 mm a season is about 99 t/ha at 1.6 t/m³
    season = sand_of_season([0.62] * 16)
    assert season == pytest.approx((16, 9.92, 6.2, 99.2))
    assert sand_of_season([]) == (0, 0.0, 0.0, 0.0)


@pytest.mark.parametrize(
    "refused", [lambda: coring_of_area(12, 50, 50, 100, -1), lambda: sand_of_season([0.5, -0.5])]
)
def test_cores_and_seasons_that_cannot_be_are_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
