"""The weather of one day: what is written down, and what cannot have been.

Bounds are wider than any weather a putting green has lived through, so that only slips of the
pen are refused (our judgement): no air on earth has been warmer than 56.7 °C, no day's mean or
lowest warmer than 45.
"""

from collections.abc import Mapping

from growin.agronomy.fields import NUMBER, DetailError, Field, clean_fields
from growin.agronomy.impossible import ImpossibleValue


def _celsius(key: str, words: str, high: float = 45) -> Field:
    return Field(key, words, NUMBER, "°C", -50, high, 0.5)


WEATHER: dict[str, Field] = {
    one.key: one
    for one in (
        _celsius("min_c", "Lowest"),
        _celsius("max_c", "Highest", 57),
        _celsius("mean_c", "Mean"),
        Field("rain_mm", "Rain", NUMBER, "mm", 0, 500, 1),
        Field("soil_100_c", "Soil at 100 mm, 9 am", NUMBER, "°C", -20, 45, 0.5),
        Field("humidity_percent", "Humidity", NUMBER, "%", 0, 100, 1, whole=True),
        Field("wind_m_s", "Wind", NUMBER, "m/s", 0, 60, 1),
        Field("sunshine_h", "Sunshine", NUMBER, "h", 0, 24, 0.5),
    )
}


def clean_weather(given: Mapping) -> dict:
    """The figures of one day, cleaned; a missing mean is the middle of lowest and highest.

    Raises
    ------
    DetailError
        With a sentence for every figure that cannot be.
    """
    cleaned = clean_fields(WEATHER.values(), given)
    if not cleaned:
        raise DetailError({"": "Nothing was written down; enter at least one figure of the day."})
    _require_order(cleaned)
    if "mean_c" not in cleaned and {"min_c", "max_c"} <= cleaned.keys():
        cleaned["mean_c"] = round((cleaned["min_c"] + cleaned["max_c"]) / 2, 1)
    return cleaned


def _require_order(cleaned: Mapping) -> None:
    low, mean, high = (cleaned.get(key) for key in ("min_c", "mean_c", "max_c"))
    pairs = (("max_c", low, high, "the lowest"), ("mean_c", low, mean, "the lowest"))
    for key, floor, value, above in (*pairs, ("max_c", mean, high, "the mean")):
        if floor is not None and value is not None and value < floor:
            refused = ImpossibleValue(
                WEATHER[key].label, f"{value:g}", f"at least {above} of the day, {floor:g}"
            )
            raise DetailError({key: str(refused)})
