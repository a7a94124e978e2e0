"""A forecast costs at most twice the bare numpy work, a fifth of its twin, and 150 MB."""

import json

import pytest

from tests.bench.forecast import GREENS, measured

pytestmark = pytest.mark.bench


@pytest.mark.parametrize("which", GREENS)
def test_a_forecast_is_cheap(which, capsys):
    told = measured(which)
    with capsys.disabled():
        print(json.dumps({which: told}))
    assert told["times the bare work"] <= 2
    assert told["times quicker than its twin"] >= 5
    assert told["peak memory, MB"] <= 150
