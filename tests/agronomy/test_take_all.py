"""What on record favours take-all: rising pH, limy sand, hard water, new sand with bent (common practice)."""

from dataclasses import replace
from datetime import date

import pytest

from growin.agronomy.settings_table import default_values
from growin.agronomy.take_all import Known, favours, hardness_mg_l, not_known

SETTINGS = default_values()
LAID, ON = date(2025, 10, 20), date(2027, 8, 1)
SOFT = (date(2027, 2, 10), {"HCO3": 60.0, "Ca": 20.0, "Mg": 3.0})
EASY = Known(
    "fescue/bent",
    date(2019, 10, 20),
    ON,
    soil_ph=((date(2026, 2, 1), 5.8), (date(2027, 2, 1), 5.9)),
    carbonate_percent=((date(2027, 2, 1), 0.2),),
    water=SOFT,
)


def test_on_old_acid_sand_with_soft_water_nothing_favours_it():
    assert (favours(EASY, SETTINGS), not_known(EASY)) == ([], [])


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        (
            {"laid_on": LAID},
            "Bent on new sand, Mon 20 October 2025: in the first full seasons little in the sand holds "
            "take-all back.",
        ),
        (
            {"soil_ph": ((date(2026, 2, 1), 5.8), (date(2027, 2, 1), 6.0))},
            "The pH of the soil rose from 5.8 (Sun 1 February 2026) to 6 (Mon 1 February 2027).",
        ),
        (
            {"soil_ph": ((date(2027, 2, 1), 6.8),)},
            "The pH of the soil was 6.8 on Mon 1 February 2027, over 6.5.",
        ),
        (
            {"carbonate_percent": ((date(2027, 2, 1), 3.0),)},
            "The soil is limy: 3 % calcium carbonate on Mon 1 February 2027.",
        ),
        (
            {"sands": (("Washed dune sand", 0.3), ("Shell sand", 14.0))},
            "Shell sand is limy: 14 % calcium carbonate by its laboratory sheet.",
        ),
        (
            {"water": (SOFT[0], SOFT[1] | {"HCO3": 190.0})},
            "The water had 190 mg/l bicarbonate on Wed 10 February 2027, over 92.",
        ),
        (
            {"water": (SOFT[0], SOFT[1] | {"Ca": 62.0, "Mg": 8.0})},
            "The water is hard: 188 mg/l as calcium carbonate on Wed 10 February 2027, over 120.",
        ),
    ],
)
def test_each_of_them_is_said_with_its_evidence(changed, said):
    assert favours(replace(EASY, **changed), SETTINGS) == [said]


def test_without_bent_there_is_nothing_to_say():
    fescue = replace(EASY, species="fine fescue", laid_on=LAID, water=None)
    assert (favours(fescue, SETTINGS), not_known(fescue)) == ([], [])


def test_what_nobody_has_measured_is_named():
    assert not_known(Known("creeping bent", LAID, ON)) == [
        "No soil analysis has a pH yet.",
        "No analysis of soil or sand says whether it is limy (calcium carbonate).",
        "The irrigation water was not analysed yet.",
    ]


def test_hardness_is_that_of_standard_methods():
    """2340 B: 2.497 Ca + 4.118 Mg, mg/l as calcium carbonate."""
    assert hardness_mg_l(62, 8) == pytest.approx(2.497 * 62 + 4.118 * 8, abs=0.05)
