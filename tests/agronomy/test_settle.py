"""What a phone is handed to judge a set by: quantiles as printed, rules as plain numbers."""

import pytest

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.rules import BoundRule, CountRule, LargestRule, RangeRule, ShownRule, YesRule
from growin.agronomy.settle import quantiles, terms_of
from growin.agronomy.student import t_quantile

#: Student t, two-sided 95 %, by readings: NIST/SEMATECH e-Handbook, 1.3.6.7.2.
PRINTED = {2: 12.706, 3: 4.303, 6: 2.571, 11: 2.228, 21: 2.086, 31: 2.042, 60: 2.001}


def test_the_quantiles_are_those_of_the_printed_table():
    handed = {count: round(at, 3) for count, at in quantiles(0.95)["t"]}
    assert {count: handed[count] for count in PRINTED} == PRINTED
    assert round(quantiles(0.95)["z"], 6) == 1.959964


def test_between_the_numbers_handed_over_a_straight_line_is_close_enough():
    beyond = [one for one in quantiles(0.95)["t"] if one[0] >= 60]
    for (low, at_low), (high, at_high) in zip(beyond, beyond[1:], strict=False):
        count = (low + high) // 2
        left, right, here = (1 / (n - 1) for n in (low, high, count))
        line = at_high + (at_low - at_high) * (here - right) / (left - right)
        assert line == pytest.approx(t_quantile(0.975, count - 1), abs=1e-4)


def test_every_kind_of_rule_is_told_in_plain_numbers():
    rules = [
        CountRule(4, 5, "Roots in", "cores", at_least=50),
        LargestRule(3, 20, "Gap", "joint places"),
        BoundRule(90, 86, 10, 25, 0.975),
        YesRule("Holds", "Does not", of=3, places="test holes"),
        RangeRule(None, 60, 9, "Hardness", "places", "gravities"),
        ShownRule("green_speed", 1),
    ]
    assert [terms_of(one) for one in rules] == [
        {"of": 5, "places": "cores", "rule": "count", "wanted": 4, "at_least": 50},
        {"of": 20, "places": "joint places", "rule": "largest", "limit": 3},
        {"of": 10, "places": "frames", "rule": "bound", "share": 90, "lower": 86, "points": 25}
        | {"z": pytest.approx(1.959964, abs=1e-6)},
        {"of": 3, "places": "test holes", "rule": "every", "wanted": True},
        {"of": 9, "places": "places", "rule": "range", "low": None, "high": 60, "confidence": 0.9},
        {"of": 1, "places": "", "rule": "shown"},
    ]


def test_no_table_is_made_for_certainty():
    with pytest.raises(ImpossibleValue):
        quantiles(1)
