"""A forecast costs at most twice the bare numpy work, a fifth of its twin, and 150 MB."""

import json

import pytest

from tests.bench.forecast import GREENS, ROUNDS, measured

pytestmark = pytest.mark.bench
AT_MOST = 2


@pytest.mark.parametrize("which", GREENS)
def test_a_forecast_is_cheap(which, capsys):
    told = measured(which)
    if told["times the bare work"] > AT_MOST:  # a busy machine: measured again before it is called dear
        told = measured(which, 3 * ROUNDS)
    with capsys.disabled():
        print(json.dumps({which: told}))
    assert told["times the bare work"] <= AT_MOST
    assert told["times quicker than its twin"] >= 5
    assert told["peak memory, MB"] <= 150
