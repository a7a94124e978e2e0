from datetime import date

import pytest

from growin.agronomy import gates
from growin.agronomy.defaults import values

SETTINGS = values(gates.DEFAULTS)


def gate(establishment, species, established_on, latitude_deg=54.0, **more):
    return gates.earliest_opening(
        establishment=establishment,
        species=species,
        established_on=established_on,
        latitude_deg=latitude_deg,
        settings=SETTINGS | more.pop("own", {}),
        **more,
    )


@pytest.mark.parametrize(
    ("laid", "day", "words"),
    [
        # At least 16 weeks down and not before 1 April (our judgement from BIGGA 2004: mid to late April).
        (date(2025, 10, 20), date(2026, 4, 1), "at least 16 weeks down and not before 1 April"),
        (date(2025, 12, 5), date(2026, 4, 1), "at least 16 weeks down and not before 1 April"),
        (date(2026, 1, 20), date(2026, 5, 12), "at least 16 weeks down and not before 1 April"),
    ],
)
def test_turf_laid_in_autumn_waits_for_weeks_and_spring(laid, day, words):
    assert gate("turf_relaid", "fescue/bent", laid) == gates.Gate(day, words)


def test_turf_laid_in_growth_waits_eight_weeks_or_four_where_the_adviser_agrees():
    laid = date(2026, 5, 4)
    assert gate("turf_washed", "creeping bent", laid).day == date(2026, 6, 29)
    assert gate("turf_washed", "creeping bent", laid, adviser_agrees=True).day == date(2026, 6, 1)


def test_bent_from_seed_waits_ten_weeks_and_fescue_forty():
    sown = date(2026, 5, 4)
    assert gate("seed", "creeping bent", sown).day == date(2026, 7, 13)
    assert gate("seed", "fescue/bent", sown).day == date(2027, 2, 8)
    assert gate("seed", "fine fescue", sown).day == date(2027, 2, 8)


def test_the_south_mirrors_the_gate_by_six_months():
    south = gate("turf_relaid", "fescue/bent", date(2026, 4, 20), -38.0)
    assert south == gates.Gate(date(2026, 10, 1), "at least 16 weeks down and not before 1 October")
    assert gate("turf_relaid", "fescue/bent", date(2026, 11, 2), -38.0).day == date(2026, 12, 28)


def test_a_club_may_set_its_own_gate():
    own = {"gates.turf_autumn.weeks": 30}
    assert gate("turf_relaid", "fescue/bent", date(2025, 10, 20), own=own).day == date(2026, 5, 18)


def test_an_unknown_species_is_refused():
    with pytest.raises(ValueError, match="ryegrass"):
        gate("seed", "ryegrass", date(2026, 5, 4))
