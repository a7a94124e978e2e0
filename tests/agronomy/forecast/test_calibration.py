"""A small version of ``python -m tests.bench.calibration``: the forecast is honest on other greens."""

from growin.agronomy.settings_table import default_values
from tests.bench.calibration import SMALLER, STAGES, score, summary
from tests.bench.other_greens import other_greens

GREENS, SEED = 90, 11
TINY = SMALLER | {"forecast.weather.paths": 80, "forecast.weather.draws": 100, "forecast.fit.draws": 2500}


def test_the_forecast_is_honest_on_greens_of_other_shapes():
    """One test, since the greens are drawn for all of it: four of five open within the interval (75–85 % on
    hundreds of greens; on ninety, three standard errors wider), readings narrow it, the chance by a day
    beats the published duration, and each stage is surer than the one before."""
    stages = summary(score(other_greens(GREENS, SEED), default_values() | TINY))
    told = [stages[stage] for stage in STAGES]
    assert all(0.67 <= one["coverage"] <= 0.93 for one in told)
    assert all(
        one["median width, days"] < 0.8 * one["median width without readings, days"] for one in told[1:]
    )
    assert all(one["Brier"] < one["Brier of published"] for one in told)
    scores = [one["interval score, days"] for one in told]
    assert scores == sorted(scores, reverse=True)
