"""From days of opening to dates, chances, and what holds the green back."""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from growin.agronomy.forecast.crossing import DRESSING, GATE, GROWTH, HEIGHT, MENDED, NOTHING
from growin.agronomy.gates import Gate

_PLACES = 4
_HAIR = 1e-9


@dataclass(frozen=True)
class Forecast:
    """When a green may open, as known on a day.

    Attributes
    ----------
    as_of : date
        The day of the forecast.
    starts_on : date
        The day that ``chances`` counts from: ``as_of``, or the day of laying when that is later.
    p10, p50, p90 : date or None
        Days by which it is ready with a chance of 10, 50 and 90 %; None beyond the horizon.
    within_season : float
        Chance before growth next stops, ``season_ends_on``, counted from the hard gate.
    ready_by : mapping of date to float
        Chance by each day that was asked for.
    holding_back : mapping of str to float
        Share of futures in which a criterion is the last to be met; adds up to 1, empty when
        nothing is unmet.
    chances : tuple of float
        Chance by each day from ``starts_on`` to the horizon.
    gate : Gate
        The hard gate.
    histories : int
        Open histories that the prior was set from, beside published durations.
    weather_years : int
        Past seasons of the club's own that the weather was drawn from; 0: normals.
    """

    as_of: date
    starts_on: date
    p10: date | None
    p50: date | None
    p90: date | None
    within_season: float
    season_ends_on: date
    ready_by: Mapping[date, float]
    holding_back: Mapping[str, float]
    chances: tuple[float, ...]
    gate: Gate
    histories: int
    weather_years: int

    def chance_by(self, day: date) -> float:
        """Chance that it is ready on or before a day; that at the horizon for any later day."""
        return _chance_by(self.chances, self.starts_on, day)

    def quantile(self, chance: float) -> date | None:
        """The first day by which it is ready with such a chance; None beyond the horizon."""
        return _quantile(self.chances, self.starts_on, chance)


def outcome(
    *,
    as_of: date,
    starts_on: date,
    opening: np.ndarray,
    last: np.ndarray,
    horizon_days: int,
    names: Mapping[int, str],
    asks: Sequence[date],
    gate: Gate,
    season_ends_on: date | None,
    histories: int,
    weather_years: int,
) -> Forecast:
    """The forecast that days of opening and last criteria, each (paths, draws), come to."""
    counts = np.bincount(opening.ravel(), minlength=horizon_days + 2)[: horizon_days + 1]
    chances = tuple((np.cumsum(counts) / opening.size).tolist())
    horizon_on = starts_on + timedelta(days=horizon_days)
    eve = horizon_on if season_ends_on is None else season_ends_on - timedelta(days=1)
    return Forecast(
        as_of,
        starts_on,
        *(_quantile(chances, starts_on, one) for one in (0.1, 0.5, 0.9)),
        within_season=round(_chance_by(chances, starts_on, eve), _PLACES),
        season_ends_on=season_ends_on or horizon_on,
        ready_by={day: round(_chance_by(chances, starts_on, day), _PLACES) for day in asks},
        holding_back=_shares(last, names),
        chances=chances,
        gate=gate,
        histories=histories,
        weather_years=weather_years,
    )


def names_of_last(bars: Sequence[str], sanded: str, mended: Sequence[str]) -> dict[int, str]:
    """The criterion behind each code of what came last."""
    by_code = dict(enumerate(bars))
    other = {DRESSING: sanded, HEIGHT: "height", GATE: "gate", GROWTH: "growth"}
    return by_code | other | {MENDED: mended[0] if mended else "disease"}


def _chance_by(chances: Sequence[float], starts_on: date, day: date) -> float:
    number = (day - starts_on).days
    return 0.0 if number < 0 else chances[min(number, len(chances) - 1)]


def _quantile(chances: Sequence[float], starts_on: date, chance: float) -> date | None:
    number = bisect_left(chances, chance - _HAIR)
    return starts_on + timedelta(days=number) if number < len(chances) else None


def _shares(last: np.ndarray, names: Mapping[int, str]) -> dict[str, float]:
    """Shares by criterion, the largest first, rounded so that they add up to 1."""
    counts = np.bincount(last.ravel(), minlength=NOTHING + 1)
    counts[NOTHING] = 0
    if not counts.any():
        return {}
    held: dict[str, float] = {}
    for code in np.flatnonzero(counts):
        held[names[int(code)]] = held.get(names[int(code)], 0.0) + counts[code] / counts.sum()
    return _rounded(dict(sorted(held.items(), key=lambda one: -one[1])))


def _rounded(shares: dict[str, float]) -> dict[str, float]:
    rounded = {key: round(float(one), _PLACES) for key, one in shares.items()}
    first = next(iter(rounded))
    rounded[first] = round(rounded[first] + 1 - sum(rounded.values()), _PLACES)
    return {key: one for key, one in rounded.items() if one > 0}
