"""Soil tests: one extractant at a time."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy.defaults import values
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.soil_test import (
    DEFAULTS,
    EXTRACTANTS,
    MEHLICH_3,
    NUTRIENTS,
    minimum_ppm,
    requirement_from_test,
)

SETTINGS = values(DEFAULTS)


def test_the_minimums_are_the_published():
    # Woods, minimum soil levels, September 2014, Mehlich-3: K 37, P 21, Ca 331, Mg 47, S 7 ppm
    assert {element: minimum_ppm(element, SETTINGS) for element in NUTRIENTS} == {
        "K": 37, "P": 21, "Ca": 331, "Mg": 47, "S": 7,
    }  # fmt: skip


def test_phosphorus_under_its_minimum():
    # Woods, 31 July 2017: 3 g/m² of use, minimum 6 and test 3 ppm: printed 3.5 after rounding, 3.45 exactly
    assert requirement_from_test(3.0, 3, MEHLICH_3, 6) == pytest.approx(3.45)


@pytest.mark.parametrize("other", sorted(set(EXTRACTANTS) - {MEHLICH_3}))
def test_no_other_extractant_is_held_against_these_minimums(other):
    with pytest.raises(ImpossibleValue) as told:
        requirement_from_test(3.0, 30, other, 37)
    assert told.value.value == EXTRACTANTS[other]
    assert told.value.right == ("Mehlich-3, as the minimum is; figures of two extractants cannot be compared")


def test_a_minimum_of_the_same_other_extractant_may_be_used():
    assert requirement_from_test(1.0, 12, "olsen", 10, "olsen") == pytest.approx(0.7)


@given(st.floats(0, 100), st.floats(0, 100))
def test_a_poorer_soil_never_asks_for_less(first, second):
    poorer, richer = sorted((first, second))
    asked = [requirement_from_test(2.0, test, MEHLICH_3, 37) for test in (poorer, richer)]
    assert asked[0] >= asked[1] >= 0


def test_what_nobody_lists_is_refused():
    with pytest.raises(ImpossibleValue):
        requirement_from_test(1, 1, "vinegar", 1)
    with pytest.raises(ImpossibleValue):
        minimum_ppm("N", SETTINGS)
