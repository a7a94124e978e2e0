"""Sizes off a curve, gravel under a rootzone, and the limits of a grading."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.rootzone import (
    CLASSES,
    DEFAULTS,
    GravelFactors,
    grading_diameter,
    grading_faults,
    gravel_faults,
    gravel_suitability,
    rootzone_grading,
    sieve_diameter,
)

SIEVES_MM = [0.05, 0.15, 0.25, 0.5, 1.0, 2.0]
PASSING = [2.0, 7.0, 21.0, 66.0, 94.0, 100.0]
GOOD = dict(zip(CLASSES, (1.0, 6.0, 28.0, 45.0, 14.0, 3.0, 2.0, 1.0), strict=True))


@given(st.floats(2, 100))
def test_between_sieves_the_logarithm_of_size_runs_straight(at_percent):
    # numpy's interpolation on the logarithm
    by_numpy = np.exp(np.interp(at_percent, PASSING, np.log(SIEVES_MM)))
    assert sieve_diameter(SIEVES_MM, PASSING, at_percent) == pytest.approx(by_numpy)


def test_sieves_may_come_in_any_order():
    coarse_first = sieve_diameter(SIEVES_MM[::-1], PASSING[::-1], 50)
    assert coarse_first == sieve_diameter(SIEVES_MM, PASSING, 50)


def test_where_the_curve_lies_flat_the_smallest_size_counts():
    assert sieve_diameter([1, 2, 4, 8], [50, 100, 100, 100], 100) == 2


@given(st.lists(st.floats(2, 100), min_size=2, max_size=2))
def test_a_larger_share_is_never_finer(shares):
    smaller, larger = sorted(shares)
    assert sieve_diameter(SIEVES_MM, PASSING, smaller) <= sieve_diameter(SIEVES_MM, PASSING, larger)


def test_a_grading_gives_the_sizes_that_gravel_is_judged_by():
    # by hand: 20 % pass 0.25 and 6 % pass 0.15 mm, so D15 = 0.15 x (0.25/0.15)^(9/14)
    assert grading_diameter(GOOD, 15) == pytest.approx(0.15 * (0.25 / 0.15) ** (9 / 14))
    assert grading_diameter(GOOD, 20) == pytest.approx(0.25)
    assert grading_diameter(GOOD, 100) == pytest.approx(3.4)


def test_a_grading_below_clay_has_no_size():
    with pytest.raises(ImpossibleValue):
        grading_diameter(GOOD, 0.5)


def test_a_grading_that_does_not_add_up_gives_no_sizes():
    with pytest.raises(ImpossibleValue, match="from 98 to 102"):
        grading_diameter(GOOD | {"medium_percent": 35.0}, 15)


@pytest.mark.parametrize(
    ("change", "faults"),
    [
        ({}, ()),
        (
            {"fine_gravel_percent": 3.5, "coarse_percent": 25.5},
            ("rootzone.fine_gravel_most_percent",),
        ),
        (
            {"very_coarse_percent": 9.5, "coarse_percent": 24.5},
            ("rootzone.gravel_and_very_coarse_most_percent",),
        ),
        (
            {"coarse_percent": 20.0, "medium_percent": 39.0},
            ("rootzone.coarse_and_medium_least_percent",),
        ),
        ({"fine_percent": 20.5, "coarse_percent": 20.0}, ("rootzone.fine_most_percent",)),
        ({"very_fine_percent": 5.5, "silt_percent": 1.0}, ("rootzone.very_fine_most_percent",)),
        ({"silt_percent": 5.5, "very_fine_percent": 1.0}, ("rootzone.silt_most_percent",)),
        ({"clay_percent": 3.5, "coarse_percent": 25.5}, ("rootzone.clay_most_percent",)),
        (
            {"very_fine_percent": 4.0, "silt_percent": 4.0, "clay_percent": 2.5, "coarse_percent": 22.0},
            ("rootzone.fines_most_percent",),
        ),
    ],
)
def test_each_limit_of_the_grading_is_named_when_it_is_broken(change, faults):
    # USGA recommendations, as set out by University of Arizona Extension, 1994
    changed = GOOD | change
    assert grading_faults(changed) == faults
    assert rootzone_grading(**changed).conforms is (faults == ())


def test_a_limit_that_is_met_exactly_is_kept():
    edge = (0.1, 0.2, 27.3, 32.7, 20.0, 4.7, 3.3, 2.0)
    assert grading_faults(dict(zip(CLASSES, edge, strict=True))) == ()


def test_a_clubs_own_limit_counts():
    assert grading_faults(GOOD, {"rootzone.fine_most_percent": 10}) == ("rootzone.fine_most_percent",)


def test_gravel_is_judged_by_three_limits():
    # USGA: at most 8 x D85, at least 5 x D15, D90/D15 at most 3
    assert gravel_faults(gravel_suitability(4.0, 9.0, 0.6, 0.22)) == ()
    assert gravel_faults(GravelFactors(8.0, 5.0, 3.0)) == ()
    assert gravel_faults(GravelFactors(8.1, 4.9, 3.1)) == (
        "gravel.bridging_most",
        "gravel.permeability_least",
        "gravel.uniformity_most",
    )


def test_the_limits_carry_their_print():
    assert all(one.mark == "published" and "USGA" in one.source for one in DEFAULTS.values())


@pytest.mark.parametrize(
    "refused",
    [
        lambda: sieve_diameter([1, 2], [10, 90], 5),
        lambda: sieve_diameter([1, 2], [10, 90], 95),
        lambda: sieve_diameter([1, 2], [90, 10], 50),
        lambda: sieve_diameter([1, 1], [10, 90], 50),
        lambda: sieve_diameter([1], [50], 50),
        lambda: sieve_diameter([1, 2, 3], [10, 90], 50),
        lambda: sieve_diameter([0, 2], [10, 90], 50),
        lambda: gravel_suitability(9, 4, 0.6, 0.2),
        lambda: gravel_suitability(4, 9, 0.2, 0.6),
        lambda: grading_faults({}),
        lambda: grading_faults(GOOD | {"clay_percent": -1}),
        lambda: grading_faults(GOOD | {"medium_percent": 60}),
    ],
)
def test_the_impossible_is_refused(refused):
    with pytest.raises(ImpossibleValue):
        refused()
