import pytest

from growin.agronomy import species
from growin.agronomy.defaults import values

SETTINGS = values(species.DEFAULTS)


def test_summer_heights_of_the_trade():
    # Bent 3.0–4.0, fescue 5.0 (USGA/Nordic trial), British mixed greens about 4.0 (common practice).
    heights = {key: species.summer_height_mm(key, SETTINGS) for key in species.SPECIES}
    assert heights == {
        "creeping bent": 3.5,
        "fescue/bent": 4.5,
        "fine fescue": 5.0,
        "annual meadow grass/bent": 4.0,
        "annual meadow grass": 4.0,
    }


def test_a_club_may_have_its_own_summer_height():
    assert species.summer_height_mm("creeping bent", SETTINGS, 3.2) == 3.2


def test_annual_meadow_grass_is_always_said_with_poa():
    words = {key: one.words for key, one in species.SPECIES.items() if one.group == "poa"}
    assert words == {
        "annual meadow grass/bent": "annual meadow-grass (Poa) and bent",
        "annual meadow grass": "annual meadow-grass (Poa)",
    }


def test_only_seed_is_not_turf():
    assert [key for key in species.ESTABLISHMENTS if not species.is_turf(key)] == ["seed"]


@pytest.mark.parametrize(
    ("ask", "word", "named"),
    [(species.species_named, "ryegrass", "creeping bent"), (species.is_turf, "sod", "turf_relaid")],
)
def test_an_unknown_word_is_answered_with_those_that_are_known(ask, word, named):
    with pytest.raises(ValueError, match=f"“{word}” is not known.*{named}"):
        ask(word)
