"""Every sum is explained, and says what checks it."""

import inspect
import sys

import pytest

from growin.agronomy.catalogue import CATALOGUE
from growin.agronomy.formulas import FORMULAS, FURTHER, GROUPS, NONE, SUMS, Formula
from tests.agronomy import sheet

ROWS = sheet.rows()


def public_functions(name: str) -> set:
    module = sys.modules[name]
    return {
        one
        for word, one in vars(module).items()
        if inspect.isfunction(one) and one.__module__ == name and not word.startswith("_")
    }


def test_every_calculation_is_explained_once():
    assert {one.calculation for one in FORMULAS} == set(CATALOGUE)
    assert len(FORMULAS) == len(CATALOGUE)
    assert len({one.words for one in FORMULAS}) == len(FORMULAS)


@pytest.mark.parametrize("module", sorted(SUMS))
def test_every_public_sum_of_a_module_is_named(module):
    named = {one.function for one in (*FORMULAS, *FURTHER)}
    assert {one.__name__ for one in public_functions(module) - named} == set()


@pytest.mark.parametrize("one", FORMULAS, ids=lambda one: one.calculation)
def test_a_calculation_has_a_published_row_or_says_that_none_exists(one: Formula):
    published = [row for row in ROWS if row["calculation"] == one.calculation and row["kind"] == "published"]
    assert bool(published) != one.held.startswith(NONE)


@pytest.mark.parametrize("one", FURTHER, ids=lambda one: one.name)
def test_a_further_sum_says_what_it_is_held_against(one):
    assert one.held.startswith((NONE, "Published: "))
    assert one.words.endswith(".")


def test_every_calculation_names_its_source_and_its_heading():
    assert [one.calculation for one in FORMULAS if not one.source] == []
    assert {one.group for one in FORMULAS} == set(GROUPS.values())


def test_nothing_is_named_twice():
    functions = [one.function for one in (*FORMULAS, *FURTHER)]
    assert len(functions) == len(set(functions))


def test_a_source_reads_as_one_line():
    speed = next(one for one in FORMULAS if one.calculation == "green_speed")
    assert speed.source == (
        "Brede, 1990, Measuring green speed on sloped putting greens, USGA Green Section Record 28(6):10-12"
    )
