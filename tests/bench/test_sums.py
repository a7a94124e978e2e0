"""Long sums cost at most three times their bare numpy expression, and come to the same."""

import json

import numpy as np
import pytest

from tests.bench.gates import gate
from tests.bench.sums import AT_MOST, costs, invented, races, ratios, table


@pytest.mark.parametrize("race", races(invented(1000)), ids=lambda race: race.name)
def test_the_bare_expression_is_the_same_sum(race):
    np.testing.assert_allclose(race.ours(), race.bare(), rtol=1e-9, atol=1e-12)


@pytest.mark.bench
def test_a_sum_costs_at_most_three_times_its_bare_expression(capsys):
    least = costs()
    with capsys.disabled():
        print(f"\n{table(least)}\n{json.dumps(ratios(least))}")
    assert {name: ratio for name, ratio in ratios(least).items() if ratio > gate(AT_MOST)} == {}
