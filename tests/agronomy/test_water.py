"""Water in the rootzone."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.water import (
    available_water,
    distribution_uniformity,
    gross_irrigation,
    irrigation_depth,
    leaching_requirement,
    run_minutes,
    soil_water_balance,
    water_volume,
)

day = st.tuples(st.floats(5, 60), st.floats(0, 1), st.floats(0, 40), st.floats(0, 15), st.floats(0, 8))


def balance(initial_share, days):
    """A balance of days given as total, share of it that is ready, rain, irrigation, demand."""
    total, share, rain, irrigation, asked = (list(column) for column in zip(*days, strict=True))
    readily = [one * part for one, part in zip(total, share, strict=True)]
    initial = initial_share * total[0]
    return initial, soil_water_balance(initial, total, readily, rain, irrigation, asked)


@given(st.floats(0, 1), st.floats(5, 60), st.lists(day, min_size=1, max_size=20))
def test_no_water_is_lost_or_found(initial_share, total, days):
    days = [(total, *rest) for _, *rest in days]
    initial, result = balance(initial_share, days)
    came = sum(rain + irrigation for _, _, rain, irrigation, _ in days)
    went = sum(result.actual_evapotranspiration_mm) + sum(result.deep_percolation_mm)
    assert result.depletion_mm[-1] - initial == pytest.approx(went - came, abs=1e-6)


@given(st.floats(0, 1), st.lists(day, min_size=1, max_size=20))
def test_a_rootzone_is_never_emptier_than_empty_nor_fuller_than_full(initial_share, days):
    _, result = balance(initial_share, days)
    assert all(0 <= end <= one[0] + 1e-9 for end, one in zip(result.depletion_mm, days, strict=True))
    assert all(0 <= stress <= 1 for stress in result.stress_coefficient)
    assert all(
        0 <= used <= one[4] for used, one in zip(result.actual_evapotranspiration_mm, days, strict=True)
    )


def test_the_last_water_is_all_that_can_be_used():
    # by hand: 14 of 15 mm are gone, 4 mm are asked for, 1 mm is left
    result = soil_water_balance(14, [15], [14.5], [0], [0], [4])
    assert result == ([1.0], [1.0], [0.0], [15.0])


@given(st.floats(0, 0.3), st.floats(0.3, 0.6), st.floats(0, 500), st.floats(0, 1))
def test_the_ready_water_is_part_of_all(wilting, capacity, roots_mm, share):
    water = available_water(capacity, wilting, roots_mm, share)
    assert 0 <= water.readily_mm <= water.total_mm


def test_a_wet_layer_needs_nothing():
    assert irrigation_depth(30, 22, 100) == 0


@given(st.lists(st.floats(0.1, 100), min_size=2, max_size=40), st.floats(0.1, 10))
def test_evenness_does_not_depend_on_the_unit_of_the_cans(catch, unit):
    first, second = distribution_uniformity(catch), distribution_uniformity([one * unit for one in catch])
    assert first == pytest.approx(second)
    assert 0 <= first.lower_quarter_percent <= 100 + 1e-9
    assert first.christiansen_percent <= 100 + 1e-9


@pytest.mark.parametrize(("cans", "lowest"), [(2, 1), (5, 1), (6, 2), (9, 2), (10, 3), (14, 4)])
def test_a_quarter_of_the_cans_is_rounded_with_halves_up(cans, lowest):
    catch = list(range(1, cans + 1))
    quarter = sum(catch[:lowest]) / lowest / (sum(catch) / cans) * 100
    assert distribution_uniformity(catch).lower_quarter_percent == pytest.approx(quarter)


def test_even_cans_are_wholly_even():
    assert distribution_uniformity([30] * 8) == (100, 100)


@given(st.lists(st.floats(0, 5), min_size=2, max_size=2))
def test_saltier_water_never_leaches_with_less(conductivities):
    sweeter, saltier = sorted(conductivities)
    water = [leaching_requirement(one, 3, 100).water_mm for one in (sweeter, saltier)]
    assert 100 <= water[0] <= water[1]


def test_a_millimetre_on_a_hectare_is_ten_cubic_metres():
    assert water_volume(1, 10_000) == 10


@pytest.mark.parametrize(
    "refused",
    [
        lambda: available_water(0.1, 0.2, 100, 0.5),
        lambda: available_water(0.3, 0.1, 100, 1.5),
        lambda: irrigation_depth(-1, 20, 100),
        lambda: soil_water_balance(0, [], [], [], [], []),
        lambda: soil_water_balance(0, [10], [5], [0, 0], [0], [0]),
        lambda: soil_water_balance(11, [10], [5], [0], [0], [0]),
        lambda: soil_water_balance(0, [10], [11], [0], [0], [0]),
        lambda: soil_water_balance(0, [10], [5], [-1], [0], [0]),
        lambda: leaching_requirement(10, 4, 100),
        lambda: distribution_uniformity([5]),
        lambda: distribution_uniformity([0, 0]),
        lambda: distribution_uniformity([5, -1]),
        lambda: water_volume(1, -1),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()


def test_uneven_heads_must_run_longer():
    # By hand: 6 mm for the driest quarter at 75 % are 8 mm on average, 40 minutes at 12 mm/h
    assert gross_irrigation(6, 75) == pytest.approx(8)
    assert run_minutes(8, 12) == pytest.approx(40)
    assert gross_irrigation(6, 100) == 6


@pytest.mark.parametrize(
    "refused", [lambda: gross_irrigation(6, 0), lambda: gross_irrigation(6, 101), lambda: run_minutes(6, 0)]
)
def test_heads_that_give_nothing_are_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
