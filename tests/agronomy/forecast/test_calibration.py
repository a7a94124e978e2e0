"""A small version of ``python -m tests.bench.calibration``: the forecast is honest on other greens."""

import pytest

from growin.agronomy.settings_table import default_values
from tests.bench.calibration import SMALLER, STAGES, score, summary
from tests.bench.other_greens import other_greens

GREENS, SEED = 90, 11
TINY = SMALLER | {"forecast.weather.paths": 80, "forecast.weather.draws": 100, "forecast.fit.draws": 2500}


@pytest.fixture(scope="module")
def stages():
    return summary(score(other_greens(GREENS, SEED), default_values() | TINY))


@pytest.mark.parametrize("stage", STAGES)
def test_four_greens_of_five_open_within_the_interval(stages, stage):
    """75–85 % on hundreds of greens; on ninety, three standard errors wider."""
    assert 0.67 <= stages[stage]["coverage"] <= 0.93


@pytest.mark.parametrize("stage", STAGES[1:])
def test_readings_narrow_the_interval(stages, stage):
    assert stages[stage]["median width, days"] < 0.8 * stages[stage]["median width without readings, days"]


@pytest.mark.parametrize("stage", STAGES)
def test_the_chance_by_a_day_beats_the_published_duration(stages, stage):
    assert stages[stage]["Brier"] < stages[stage]["Brier of published"]


def test_each_stage_is_surer_than_the_one_before(stages):
    scores = [stages[stage]["interval score, days"] for stage in STAGES]
    assert scores == sorted(scores, reverse=True)
