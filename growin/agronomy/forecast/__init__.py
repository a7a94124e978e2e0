"""The honest forecast of the day a green may open."""

from growin.agronomy.forecast.from_file import forecast_from_file
from growin.agronomy.forecast.looking_ahead import forecast
from growin.agronomy.forecast.outcome import Forecast
from growin.agronomy.forecast.words import behind, chance_words

__all__ = ["Forecast", "behind", "chance_words", "forecast", "forecast_from_file"]
