"""A sand or a turf's soil on the rootzone: neither finer nor much coarser."""

import pytest

from growin.agronomy.build_facts import MaterialFacts
from growin.agronomy.layering import Fit, fits_rootzone

# Sieve in mm and % passing; rootzone well inside the limits of the USGA recommendations
ROOTZONE = MaterialFacts([(3.4, 100), (2, 98), (1, 92), (0.5, 60), (0.25, 18), (0.15, 5), (0.05, 3)])
DUNE_SAND = MaterialFacts([(2, 100), (1, 98), (0.5, 70), (0.25, 12), (0.15, 2), (0.05, 0)])
LOAM = MaterialFacts([(2, 100), (1, 97), (0.5, 85), (0.25, 60), (0.15, 45), (0.05, 30)])
GRIT = MaterialFacts([(4, 100), (2, 70), (1, 30), (0.5, 8), (0.25, 2), (0.15, 1), (0.05, 0)])


def test_a_sand_like_the_rootzone_suits():
    assert fits_rootzone(DUNE_SAND, ROOTZONE) == Fit(
        True,
        (
            "2 % finer than 0.15 mm, 5 % in the rootzone.",
            "2 % coarser than 1 mm, 8 % in the rootzone.",
            "Middle size 0.39 mm, 0.42 mm in the rootzone.",
        ),
    )


def test_soil_finer_than_the_rootzone_does_not():
    fit = fits_rootzone(LOAM, ROOTZONE)
    assert fit.suits is False
    assert fit.sentences[0] == (
        "45 % finer than 0.15 mm, 5 % in the rootzone: finer than the rootzone, it holds water on top."
    )


def test_grit_does_not_either():
    fit = fits_rootzone(GRIT, ROOTZONE)
    assert fit.suits is False
    assert fit.sentences[1] == (
        "70 % coarser than 1 mm, 8 % in the rootzone: coarser than the rootzone, it dries and does not mix."
    )


@pytest.mark.parametrize("one", [ROOTZONE, DUNE_SAND, LOAM, GRIT])
def test_everything_suits_itself(one):
    assert fits_rootzone(one, one).suits


def test_without_a_grading_nothing_is_known():
    assert fits_rootzone(MaterialFacts(), ROOTZONE) == Fit(None, ("No grading to compare.",))


def test_the_club_may_be_stricter():
    strict = {"build.turf_fines_over_percent": 0, "layering.middle_apart": 1.05}
    assert fits_rootzone(DUNE_SAND, ROOTZONE, strict).suits is False
