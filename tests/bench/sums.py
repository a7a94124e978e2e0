"""What the long sums cost over 10,000 days beside the bare numpy expression: ``python -m tests.bench.sums``.

Each sum and its bare expression are run in turns, and the least time of each is compared, so that
a busy machine disturbs both alike.
"""

from collections.abc import Callable
from dataclasses import dataclass
from time import process_time

import numpy as np

from growin.agronomy.evapotranspiration import hargreaves_evapotranspiration, reference_evapotranspiration
from growin.agronomy.growth import growing_degree_days, growth_potential

DAYS, ROUNDS, AT_MOST = 10_000, 60, 3.0
LATITUDE_DEG, ALTITUDE_M, WIND_HEIGHT_M = 54.0, 60.0, 10.0


@dataclass(frozen=True)
class Weather:
    """Ten thousand days of a cool, windy place of our own invention."""

    day: np.ndarray
    low: np.ndarray
    high: np.ndarray
    vapour: np.ndarray
    solar: np.ndarray
    wind: np.ndarray

    @property
    def mean(self) -> np.ndarray:
        return (self.high + self.low) / 2


@dataclass(frozen=True)
class Race:
    """One sum beside its bare expression."""

    name: str
    ours: Callable[[], np.ndarray]
    bare: Callable[[], np.ndarray]


def invented(days: int = DAYS) -> Weather:
    rng = np.random.default_rng(20260416)
    day = np.arange(days) % 365 + 1
    low = 4 - 6 * np.cos(2 * np.pi * day / 365) + rng.normal(0, 2, days)
    high = low + rng.uniform(3, 11, days)
    vapour = 0.9 * 0.6108 * np.exp(17.27 * low / (low + 237.3))
    return Weather(day, low, high, vapour, rng.uniform(1, 6, days), rng.uniform(0.5, 9, days))


def races(w: Weather) -> list[Race]:
    return [
        Race("growth potential", lambda: growth_potential(w.mean), lambda: bare_potential(w.mean)),
        Race(
            "degree days",
            lambda: growing_degree_days(w.high, w.low, 6.0),
            lambda: np.maximum((w.high + w.low) / 2 - 6.0, 0.0),
        ),
        Race(
            "Hargreaves",
            lambda: hargreaves_evapotranspiration(w.low, w.high, LATITUDE_DEG, w.day),
            lambda: bare_hargreaves(w),
        ),
        Race("Penman–Monteith", lambda: penman_monteith(w), lambda: bare_penman_monteith(w)),
    ]


def penman_monteith(w: Weather) -> np.ndarray:
    return reference_evapotranspiration(
        LATITUDE_DEG,
        ALTITUDE_M,
        w.day,
        w.high,
        w.low,
        ea_kpa=w.vapour,
        rs_mj_m2_day=w.solar,
        uz_m_s=w.wind,
        wind_height_m=WIND_HEIGHT_M,
    )


# The expressions as they would stand in a notebook: FAO 56, Eq. 6, 21 to 25, 37 to 40, 47, 52.


def bare_potential(mean: np.ndarray) -> np.ndarray:
    return np.exp(-0.5 * ((mean - 20.0) / 5.5) ** 2)


def bare_sun(day: np.ndarray) -> np.ndarray:
    phi, angle = np.radians(LATITUDE_DEG), 2 * np.pi * day / 365
    delta = 0.409 * np.sin(angle - 1.39)
    ws = np.arccos(-np.tan(phi) * np.tan(delta))
    height = ws * np.sin(phi) * np.sin(delta) + np.cos(phi) * np.cos(delta) * np.sin(ws)
    return 1440 / np.pi * 0.0820 * (1 + 0.033 * np.cos(angle)) * height


def bare_hargreaves(w: Weather) -> np.ndarray:
    return 0.0023 * (w.mean + 17.8) * np.sqrt(w.high - w.low) * 0.408 * bare_sun(w.day)


def bare_penman_monteith(w: Weather) -> np.ndarray:
    mean, e = w.mean, lambda t: 0.6108 * np.exp(17.27 * t / (t + 237.3))
    share = np.minimum(w.solar / ((0.75 + 2e-5 * ALTITUDE_M) * bare_sun(w.day)), 1.0)
    warmth = 4.903e-9 * ((w.high + 273.16) ** 4 + (w.low + 273.16) ** 4) / 2
    net = 0.77 * w.solar - warmth * (0.34 - 0.14 * np.sqrt(w.vapour)) * (1.35 * share - 0.35)
    slope = 4098 * e(mean) / (mean + 237.3) ** 2
    gamma = 0.000665 * 101.3 * ((293 - 0.0065 * ALTITUDE_M) / 293) ** 5.26
    wind = w.wind * 4.87 / np.log(67.8 * WIND_HEIGHT_M - 5.42)
    missing = (e(w.high) + e(w.low)) / 2 - w.vapour
    asked = 0.408 * slope * net + gamma * 900 / (mean + 273) * wind * missing
    return asked / (slope + gamma * (1 + 0.34 * wind))


def seconds(work: Callable[[], np.ndarray]) -> float:
    """One run, after one that fetches its memory: whoever comes first would pay for both."""
    work()
    began = process_time()
    work()
    return process_time() - began


def costs(rounds: int = ROUNDS) -> dict[str, tuple[float, float]]:
    """Least seconds of each sum and of its bare expression, all run in turns."""
    field = races(invented())
    least = {race.name: (float("inf"), float("inf")) for race in field}
    for _ in range(rounds):
        for race in field:
            ours, bare = least[race.name]
            least[race.name] = min(ours, seconds(race.ours)), min(bare, seconds(race.bare))
    return least


def ratios(least: dict[str, tuple[float, float]]) -> dict[str, float]:
    return {name: round(ours / bare, 2) for name, (ours, bare) in least.items()}


def table(least: dict[str, tuple[float, float]]) -> str:
    lines = [f"{'sum over 10,000 days':<24}{'ours, ms':>10}{'bare, ms':>10}{'times':>8}"]
    for name, (ours, bare) in least.items():
        lines.append(f"{name:<24}{ours * 1000:>10.3f}{bare * 1000:>10.3f}{ours / bare:>8.2f}")
    return "\n".join(lines)


if __name__ == "__main__":
    print(table(costs()))
