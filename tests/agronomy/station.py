"""A station's whole record: the data shipped with the package ETo 2.2.1 (Apache-2.0).

5,821 days of a station in the southern hemisphere, with reference evapotranspiration after FAO
Irrigation and Drainage Paper 56 printed to 0.01 mm. Only its two tables are read, none of its code is run.
"""

from importlib.metadata import distribution

import numpy as np
import pandas as pd

from growin.agronomy.evapotranspiration import saturation_pressure
from growin.agronomy.radiation import solar_radiation

# Latitude, altitude and the wind taken where none was measured stand beside the published figures.
LATITUDE_DEG, ALTITUDE_M, WIND_M_S, KRS = -43.6, 500, 2.0, 0.16
DAYS = 5821


def table(name: str) -> pd.DataFrame:
    path = distribution("ETo").locate_file(f"eto/datasets/{name}.csv.zip")
    return pd.read_csv(path, parse_dates=["date"], index_col="date")


def station_record() -> pd.DataFrame:
    return table("example_daily").join(table("example_daily_results"), validate="one_to_one")


def known_days(record: pd.DataFrame) -> pd.DataFrame:
    return record.dropna(subset=["e_a", "ETo_FAO_mm"])


def weather(record: pd.DataFrame) -> dict[str, np.ndarray]:
    """Extremes, vapour and radiation; radiation from the range of temperature where none was measured."""
    high, low, day = record.T_max.to_numpy(), record.T_min.to_numpy(), record.index.day_of_year.to_numpy()
    estimated = solar_radiation(LATITUDE_DEG, day, maximum_c=high, minimum_c=low, krs=KRS)
    solar = np.where(record.R_s.isna(), estimated, record.R_s)
    vapour = np.minimum(record.e_a.to_numpy(), saturation_pressure(high))  # one day reads above saturation
    return {"day_of_year": day, "tmax_c": high, "tmin_c": low, "ea_kpa": vapour, "rs_mj_m2_day": solar}
