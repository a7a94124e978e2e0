"""Weather to come: drawn from normals or from the club's own seasons, the same for the same seed."""

from datetime import date

import numpy as np
import pytest
from statsmodels.tsa.stattools import acf

from growin.agronomy.climate import Climate
from growin.agronomy.forecast.weather import normals_from, weather_paths, years_on_record
from tests.agronomy.climates import ENGLAND
from tests.agronomy.forecast.asked import DAY, SETTINGS

APRIL = date(2026, 4, 1)
FLAT = Climate((10.0,) * 12)


def paths(climate=FLAT, days=120, seed=1, **changed):
    settings = SETTINGS | {f"forecast.weather.{key}": value for key, value in changed.items()}
    return weather_paths(climate, APRIL, days, settings, np.random.default_rng(seed))


def test_one_seed_gives_one_weather():
    assert (paths(seed=3, days=20) == paths(seed=3, days=20)).all()
    assert (paths(seed=3, days=20) != paths(seed=4, days=20)).any()


def test_without_a_record_days_spread_about_the_normal_and_remember_one_another():
    """Autocorrelation at lag 1 as statsmodels estimates it; spread of days as the climate has it."""
    drawn = paths(days=400, paths=400, normals_off_c=0)
    lag_one = np.mean([acf(path, nlags=1, adjusted=True)[1] for path in drawn.T])
    assert drawn.mean() == pytest.approx(10, abs=0.05)
    assert drawn.std() == pytest.approx(FLAT.spread_c, rel=0.03)
    assert lag_one == pytest.approx(SETTINGS["forecast.weather.memory"], abs=0.02)


def test_normals_may_be_off_the_place():
    assert paths(days=400).mean(axis=0).std() > paths(days=400, normals_off_c=0).mean(axis=0).std() + 0.1


def test_a_warm_spell_on_the_last_measured_day_fades():
    warm = Climate((10.0,) * 12, daily={APRIL: 18.0})
    drawn = paths(warm)
    assert (drawn[0] == 18).all()
    assert 14 < drawn[1].mean() < 17
    assert drawn[40].mean() == pytest.approx(10, abs=0.5)


def own_years(years: int, warmer_c: float = 3.0, missing_every: int = 0) -> Climate:
    start = APRIL - years * 366 * DAY
    days = [start + n * DAY for n in range(years * 366)]
    kept = [one for n, one in enumerate(days) if not missing_every or n % missing_every]
    climate = Climate(ENGLAND)
    return Climate(ENGLAND, daily={one: climate.normal_c(one) + warmer_c for one in kept})


def test_years_of_its_own_take_the_place_of_noise():
    """A place always 3 °C over its normals stays 3 °C over them."""
    drawn = paths(own_years(5), days=300)
    over = drawn - normals_from(Climate(ENGLAND), APRIL, 300)[:, None]
    np.testing.assert_allclose(over, 3.0, atol=0.01)


def test_too_few_years_are_not_used():
    assert [years_on_record(own_years(years), APRIL, SETTINGS) for years in (0, 2, 4)] == [0, 0, 4]
    assert paths(own_years(2), days=300)[100:].std() > 2


def test_a_day_missing_in_a_past_season_keeps_its_noise():
    over = paths(own_years(5, missing_every=7), days=90) - normals_from(Climate(ENGLAND), APRIL, 90)[:, None]
    assert 0.7 < np.isclose(over, 3.0, atol=0.01).mean() < 0.95


def test_the_29th_of_february_and_the_turn_of_the_year_are_days_like_others():
    drawn = weather_paths(Climate(ENGLAND), date(2027, 12, 20), 100, SETTINGS, np.random.default_rng(1))
    assert np.isfinite(drawn).all() and drawn.shape == (100, 1000)
