import pytest
from hypothesis import given
from hypothesis import strategies as st

from growin.agronomy import heights, species
from growin.agronomy.defaults import values
from growin.agronomy.impossible import ImpossibleValue

SETTINGS = values(species.DEFAULTS, heights.DEFAULTS)


def ladder(establishment, kind, autumn_turf=False, **known):
    opening = heights.opening_height_mm(kind, SETTINGS, **known)
    rungs = heights.ladder(
        establishment=establishment,
        species=kind,
        autumn_turf=autumn_turf,
        opening_mm=opening,
        settings=SETTINGS,
    )
    return [rung.height_mm for rung in rungs]


def test_autumn_turf_as_british_clubs_take_it_down():
    # 10–12 mm once knitted, 8 through winter, 7 in mid-March, 6 by opening (club practice).
    assert ladder("turf_relaid", "fescue/bent", autumn_turf=True) == [11, 8, 7, 6, 5.5]


def test_bent_from_seed_starts_at_nine_and_a_half():
    # Set at 9.5–10 mm, then 0.8–1.6 mm a week (practice note, US).
    assert ladder("seed", "creeping bent") == [9.5, 8.5, 7.5, 6.5, 5.5, 4.5]


def test_fescue_from_seed_slows_under_eight():
    # −1 mm a week to 8 mm, then −0.5 mm (STRI author, 2007).
    assert ladder("seed", "fescue/bent") == [12, 11, 10, 9, 8, 7.5, 7, 6.5, 6, 5.5]


def test_the_third_rule():
    # No more than a third of the leaf: 12 to 8 is just allowed (Maryland golf BMP).
    assert heights.obeys_third_rule(12, 8)
    assert not heights.obeys_third_rule(12, 7.9)


def test_opening_height_stands_over_the_other_greens():
    # The other greens that week plus 0.5–1 mm; else the summer height plus 1 mm.
    known = heights.opening_height_mm("fescue/bent", SETTINGS, others_mm=5.0)
    assert 5.5 <= known <= 6.0
    assert heights.opening_height_mm("fescue/bent", SETTINGS) == 5.5
    assert heights.opening_height_mm("creeping bent", SETTINGS, summer_mm=3.0) == 4.0


def test_poa_is_not_cut_under_its_floor():
    # Poa not under 3.2 mm (Rutgers).
    assert heights.floor_mm("annual meadow grass", SETTINGS) == 3.2
    assert heights.judge_height(3.0, 3.5, "annual meadow grass", SETTINGS) == [
        "3 mm is under the floor of 3.2 mm for annual meadow-grass (Poa)."
    ]


def test_a_drop_of_over_a_third_is_said():
    assert heights.judge_height(6, 11, "fescue/bent", SETTINGS) == [
        "From 11 to 6 mm takes over a third of the leaf; 7.3 mm first."
    ]
    assert heights.judge_height(8, 11, "fescue/bent", SETTINGS) == []


def test_to_summer_by_half_millimetres():
    rungs = heights.to_summer(5.5, 4.5, SETTINGS)
    assert [(rung.height_mm, rung.part) for rung in rungs] == [(5.0, "summer"), (4.5, "summer")]
    assert heights.to_summer(4.5, 4.5, SETTINGS) == ()


def test_a_green_kept_as_high_as_its_first_cut_has_one_rung():
    assert ladder("turf_relaid", "fescue/bent", autumn_turf=True, others_mm=12) == [12.75]


def test_a_drop_of_nothing_would_never_arrive():
    with pytest.raises(ImpossibleValue):
        heights.descent(10, 5, lambda height: 0)


@given(
    st.sampled_from(sorted(species.ESTABLISHMENTS)),
    st.sampled_from(sorted(species.SPECIES)),
    st.booleans(),
    st.floats(3.2, 8),
)
def test_every_ladder_falls_within_the_third_rule_to_its_opening_height(establishment, kind, autumn, opening):
    rungs = heights.ladder(
        establishment=establishment,
        species=kind,
        autumn_turf=autumn,
        opening_mm=opening,
        settings=SETTINGS,
    )
    taken = [rung.height_mm for rung in rungs]
    assert taken == sorted(set(taken), reverse=True)
    assert taken[-1] == pytest.approx(opening, abs=0.0051)
    assert all(heights.obeys_third_rule(high, low) for high, low in zip(taken, taken[1:], strict=False))
