"""The same station's weather given to pyet 1.5.0, a library of its own that needs an older pandas.

pyet (MIT) is run in its own environment, which ``tests/run.sh`` makes; here its answers are compared.
"""

import json
import os
import subprocess
from pathlib import Path

import numpy as np
import pytest

from growin.agronomy.evapotranspiration import hargreaves_evapotranspiration, reference_evapotranspiration
from growin.agronomy.radiation import clear_sky_radiation
from tests.agronomy.station import ALTITUDE_M, LATITUDE_DEG, WIND_M_S, known_days, station_record, weather

PYTHON = os.environ.get("PYTHON_OF_OTHER_PANDAS", "")
ASK = Path(__file__).parents[1] / "other_pandas" / "water.py"
pytestmark = pytest.mark.skipif(not PYTHON, reason="PYTHON_OF_OTHER_PANDAS names no environment with pyet")
#: pyet never lets the share of a clear sky fall under this (its calc_rad_long); FAO 56 sets no lower limit.
LEAST_CLEAR_SHARE = 0.3


@pytest.fixture(scope="module")
def days() -> dict:
    return weather(known_days(station_record()))


@pytest.fixture(scope="module")
def theirs(days) -> dict[str, np.ndarray]:
    record = known_days(station_record())
    sent = {name: list(map(float, values)) for name, values in days.items()}
    sent |= {"on": [f"{day:%Y-%m-%d}" for day in record.index], "u2_m_s": [WIND_M_S] * len(record)}
    sent |= {"mean_c": list((days["tmax_c"] + days["tmin_c"]) / 2)}
    sent |= {"latitude_deg": LATITUDE_DEG, "altitude_m": ALTITUDE_M}
    done = subprocess.run([PYTHON, ASK], input=json.dumps(sent), capture_output=True, text=True, check=True)
    return {name: np.array(values) for name, values in json.loads(done.stdout).items()}


def test_penman_monteith_is_pyet_s_wherever_it_does_not_limit_the_clouds(days, theirs):
    ours = reference_evapotranspiration(LATITUDE_DEG, ALTITUDE_M, **days, u2_m_s=WIND_M_S)
    clear = clear_sky_radiation(LATITUDE_DEG, days["day_of_year"], ALTITUDE_M)
    alike = days["rs_mj_m2_day"] >= LEAST_CLEAR_SHARE * clear
    assert alike.sum() > 5000
    assert abs(ours - theirs["penman_monteith"])[alike].max() <= 0.001


def test_hargreaves_is_pyet_s_once_its_heat_of_evaporation_is_ours(days, theirs):
    """pyet lets that heat fall with the air's warmth, 2.501 - 0.002361 T; FAO 56 takes 2.45 MJ/kg."""
    ours = hargreaves_evapotranspiration(days["tmin_c"], days["tmax_c"], LATITUDE_DEG, days["day_of_year"])
    heat = 2.501 - 0.002361 * (days["tmax_c"] + days["tmin_c"]) / 2
    assert abs(ours - np.maximum(theirs["hargreaves"] * heat * 0.408, 0)).max() <= 0.001
