"""Reference evapotranspiration by pyet, which needs an older pandas than ours: days in, mm out, both JSON.

Runs in an environment of its own, made from requirements.txt beside it.
"""

import json
import sys

import numpy as np
import pandas as pd
import pyet


def series(days: dict, name: str) -> pd.Series:
    return pd.Series(days[name], index=pd.to_datetime(days["on"]), dtype=float)


def asked(days: dict) -> dict[str, list[float]]:
    """Penman–Monteith after FAO 56, and Hargreaves, of each day in mm."""
    mean, high, low = (series(days, name) for name in ("mean_c", "tmax_c", "tmin_c"))
    place = {"lat": np.radians(days["latitude_deg"]), "clip_zero": False}
    vapour, wind, sun = (series(days, name) for name in ("ea_kpa", "u2_m_s", "rs_mj_m2_day"))
    known = {"rs": sun, "tmax": high, "tmin": low, "ea": vapour, "elevation": days["altitude_m"]}
    by_energy = pyet.pm_fao56(mean, wind, **known, **place)
    by_warmth = pyet.hargreaves(mean, high, low, **place)
    return {"penman_monteith": by_energy.tolist(), "hargreaves": by_warmth.tolist()}


if __name__ == "__main__":
    json.dump(asked(json.load(sys.stdin)), sys.stdout)
