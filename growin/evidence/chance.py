"""The chance that a green is ready by a day, said as people say it."""

from dataclasses import dataclass
from datetime import date

from greens.models import Establishment
from growin.agronomy.forecast import Forecast, chance_words
from growin.queries import forecast as forecasts

NO_FORECAST = "no forecast yet"


@dataclass(frozen=True)
class Chance:
    """``chance`` from 0 to 1 by a day, as forecast ``as_of`` a day; all None without a forecast."""

    words: str
    chance: float | None = None
    as_of: date | None = None
    likely_on: date | None = None

    @property
    def is_known(self) -> bool:
        return self.chance is not None


def chance_by(establishment: Establishment, day: date) -> Chance:
    """The chance that it is ready by a day, from the newest forecast kept."""
    return chance_from(forecasts.newest(establishment), day)


def chance_from(forecast: Forecast | None, day: date) -> Chance:
    """What one forecast says of a day."""
    if forecast is None:
        return Chance(NO_FORECAST)
    chance = forecast.chance_by(day)
    return Chance(chance_words(chance, forecast.histories), chance, forecast.as_of, forecast.p50)
