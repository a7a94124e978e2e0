"""Tanks and hoppers: every litre and gram of the area is in one of the fillings."""

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.label import contents, nutrients_mg_m2
from growin.agronomy.tank import (
    Loads,
    PartOfMix,
    hopper_fill,
    mix_nutrients_mg_m2,
    part_of_mix,
    require_room,
    tank_fill,
)

above = st.floats(0.5, 5000)


def test_three_greens_by_hand():
    # By hand: 1,350 m² at 400 l/ha are 54 l; a 20 l knapsack is filled twice and once with 14 l
    fills = tank_fill(1350, 400, 20)
    assert fills == Loads(54.0, 2, 14.0, 500.0)
    assert fills.loads == 3
    # 2 ml/m² of product: 2,700 ml, 1,000 ml in each full tank, 700 ml in the last
    assert part_of_mix(2, 1350, fills) == pytest.approx(PartOfMix(2700, 1000, 700))


def test_a_hopper_by_hand():
    # By hand: 30 g/m² on 1,350 m² are 40.5 kg; a hopper of 25 kg does 833 m² and 15.5 kg are left
    fills = hopper_fill(1350, 30, 25)
    assert (fills.full_loads, fills.loads) == (1, 2)
    assert (fills.total, fills.last_load, fills.area_per_load_m2) == pytest.approx(
        (40.5, 15.5, 833.333), abs=1e-3
    )


def test_an_area_that_just_fills_its_tanks_leaves_none_over():
    assert tank_fill(1000, 300, 10) == Loads(30.0, 3, 0.0, pytest.approx(1000 / 3))
    assert tank_fill(0, 300, 10) == Loads(0.0, 0, 0.0, 0.0)


@given(st.just(0) | st.floats(0.1, 20_000), above, above)
def test_the_fillings_add_up_to_the_whole(area_m2, water_l_ha, tank_l):
    fills = tank_fill(area_m2, water_l_ha, tank_l)
    assert fills.full_loads * tank_l + fills.last_load == pytest.approx(fills.total, rel=1e-6, abs=1e-6)
    assert 0 <= fills.last_load < tank_l


@given(st.floats(1, 20_000), above, above, st.floats(0, 100))
def test_the_product_in_the_fillings_adds_up_and_is_as_strong_in_each(area_m2, water_l_ha, tank_l, rate):
    fills = tank_fill(area_m2, water_l_ha, tank_l)
    part = part_of_mix(rate, area_m2, fills)
    together = part.full_tank * fills.full_loads + part.last_tank
    assert math.isclose(together, rate * area_m2, rel_tol=1e-6, abs_tol=1e-6)
    if fills.full_loads and fills.last_load:
        strengths = part.full_tank / tank_l, part.last_tank / fills.last_load
        assert math.isclose(*strengths, rel_tol=1e-3, abs_tol=1e-9)


def test_a_mix_brings_what_its_products_bring():
    urea = contents({"N_total": "46"})
    iron = contents({"N_total": "3", "Fe": "6"}, form="liquid", basis="w/v")
    mix = mix_nutrients_mg_m2([(5_000, urea), (900, iron)], 45_000)
    assert nutrients_mg_m2(5_000, 45_000, urea) == {"N": 5111}
    assert nutrients_mg_m2(900, 45_000, iron) == {"N": 60, "Fe": 120}
    assert mix == {"N": 5171, "Fe": 120}


def test_products_that_are_more_than_the_spray_are_refused():
    require_room([1_000, 2_000], 3)
    with pytest.raises(ImpossibleValue) as told:
        require_room([2_000, 2_000], 3)
    assert str(told.value) == (
        "products together, l: 4 is not possible; it should be less than the 3 l of spray."
    )


@pytest.mark.parametrize(
    "refused",
    [
        lambda: tank_fill(-1, 300, 10),
        lambda: tank_fill(100, 0, 10),
        lambda: tank_fill(100, 300, 0),
        lambda: hopper_fill(100, 0, 10),
        lambda: hopper_fill(100, 30, -2),
        lambda: part_of_mix(-1, 100, tank_fill(100, 300, 10)),
        lambda: mix_nutrients_mg_m2([(-1, {"N": Decimal(80)})], 100),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
