"""A station's whole record, day by day, against the water that was published with it (see station.py)."""

import numpy as np
import pandas as pd
import pytest

from growin.agronomy.evapotranspiration import hargreaves_evapotranspiration, reference_evapotranspiration
from growin.agronomy.radiation import MOST_CLEAR_SHARE, clear_sky_radiation
from tests.agronomy.station import (
    ALTITUDE_M,
    DAYS,
    LATITUDE_DEG,
    WIND_M_S,
    known_days,
    station_record,
    weather,
)

NO_LIMIT = 2.0  # no day has twice the sun of a clear sky


@pytest.fixture(scope="module")
def record() -> pd.DataFrame:
    return station_record()


def off_mm(record: pd.DataFrame, most_clear_share: float = MOST_CLEAR_SHARE) -> np.ndarray:
    """Our Penman-Monteith less the published; the record holds nothing below zero."""
    place = LATITUDE_DEG, ALTITUDE_M
    days = weather(record) | {"u2_m_s": WIND_M_S, "most_clear_share": most_clear_share}
    return np.maximum(reference_evapotranspiration(*place, **days), 0.0) - record.ETo_FAO_mm.to_numpy()


def clear_sky(record: pd.DataFrame) -> np.ndarray:
    return clear_sky_radiation(LATITUDE_DEG, record.index.day_of_year.to_numpy(), ALTITUDE_M)


def test_the_record_is_the_whole_of_it(record):
    published = record.ETo_FAO_mm.notna().sum(), record.ETo_Har_mm.notna().sum()
    assert (len(record), *published) == (DAYS, 5816, DAYS)


def test_penman_monteith_over_sixteen_years_is_the_published_to_its_last_figure(record):
    """The published series does not limit the sun's share of a clear sky; so taken, no day differs."""
    off = off_mm(known_days(record), most_clear_share=NO_LIMIT)
    assert (len(off), abs(off.mean()) <= 0.001, abs(off).max() <= 0.005 + 1e-9) == (5815, True, True)


def test_the_limit_of_fao_56_moves_only_the_seven_days_brighter_than_a_clear_sky(record):
    """FAO 56 limits that share to 1, as we do by default."""
    known = known_days(record)
    brighter = weather(known)["rs_mj_m2_day"] > clear_sky(known)
    off = off_mm(known)
    assert (brighter.sum(), abs(off.mean()) <= 0.01) == (7, True)
    assert abs(off[~brighter]).max() <= 0.005 + 1e-9
    assert 0.1 < abs(off[brighter]).max() <= 0.11


def test_hargreaves_over_sixteen_years_is_the_published_to_its_last_figure(record):
    low, high = record.T_min.to_numpy(), record.T_max.to_numpy()
    asked = hargreaves_evapotranspiration(low, high, LATITUDE_DEG, record.index.day_of_year.to_numpy())
    off = asked - record.ETo_Har_mm.to_numpy()
    assert abs(off).max() <= 0.005 + 1e-9
