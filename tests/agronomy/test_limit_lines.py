"""The limits of a rule as a picture draws them (thresholds: common practice, our judgement)."""

import pytest

from growin.agronomy.criteria import CRITERIA, DEFAULTS
from growin.agronomy.defaults import values
from growin.agronomy.limit_lines import LimitLine, limit_lines
from growin.agronomy.measures import MEASURES

SETTINGS = values(DEFAULTS)
LINES = {
    "rooting_depth": [LimitLine(50, "50 mm wanted in 4 of 5 cores")],
    "hand_pull": [LimitLine(80, "8 of 10 points wanted")],
    "joint_gap": [LimitLine(3, "none over 3 mm")],
    "cover": [LimitLine(98, "98 % wanted"), LimitLine(95, "95 % allowing for chance")],
    "scalping": [LimitLine(0, "none wanted")],
    "irrigation_live": [LimitLine(100, "all wanted")],
    "green_speed": [],
}


def parts():
    return [(part, from_seed) for one in CRITERIA.values() for from_seed in (False, True)
            for part in one.parts_for(from_seed)]  # fmt: skip


@pytest.mark.parametrize(("measure", "lines"), LINES.items())
def test_each_rule_is_a_line_in_the_unit_of_its_measure(measure, lines):
    part = next(part for part, _ in parts() if part.measure == measure)
    assert list(limit_lines(part.rule(SETTINGS), MEASURES[measure].unit)) == lines


def test_every_rule_of_every_criterion_can_be_drawn():
    for part, _ in parts():
        assert all(one.words for one in limit_lines(part.rule(SETTINGS), MEASURES[part.measure].unit))
