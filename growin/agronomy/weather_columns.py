"""Which column of a weather table holds what: headers as stations and people write them.

A header is read as words and a unit. The quantity is named by one of its words ("rain",
"soil"), a temperature by its extreme ("lowest", "tmax"); what is measured in another way (dew
point, gusts, rain per hour) is left alone. A header without a unit is in the club's own.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

DAY = "on"
METRIC, US = 0, 1

#: Units a column may be in: the first is usual at metric clubs, the second at US clubs.
UNITS_OF: dict[str, tuple[str, ...]] = {
    "min_c": ("c", "f"),
    "max_c": ("c", "f"),
    "mean_c": ("c", "f"),
    "rain_mm": ("mm", "in"),
    "soil_100_c": ("c", "f"),
    "humidity_percent": (),
    "wind_m_s": ("m_s", "mph", "km_h", "kn"),
    "sunshine_h": (),
}
UNIT_SIGNS: dict[str, str] = {
    "c": r"(?:°|º|\bdeg(?:rees)?)\s*c\b|\bcelsius\b|\bc\b",
    "f": r"(?:°|º|\bdeg(?:rees)?)\s*f\b|\bfahrenheit\b|\bf\b",
    "mm": r"\bmm\b|\bmillimet(?:re|er)s?\b",
    "in": r"\bin\b|\binch(?:es)?\b|\"",
    "m_s": r"\bm\s*/\s*s\b|\bms-1\b|\bm\s+s-1\b|\bmps\b",
    "mph": r"\bmph\b|\bmi\s*/\s*h\b",
    "km_h": r"\bkm\s*/\s*h\b|\bkmh\b|\bkph\b",
    "kn": r"\bkn\b|\bkts?\b|\bknots?\b",
}
DAY_WORDS = frozenset({"date", "datetime", "timestamp"})
QUANTITIES: dict[str, frozenset[str]] = {
    "soil_100_c": frozenset({"soil", "earth"}),
    "humidity_percent": frozenset({"humidity", "hum", "rh"}),
    "wind_m_s": frozenset({"wind", "windspeed", "wspd", "awnd", "ws"}),
    "sunshine_h": frozenset({"sun", "sunshine", "tsun", "sunhours"}),
    "rain_mm": frozenset({"rain", "rainfall", "precipitation", "precip", "prcp", "ppt"}),
}
EXTREMES: dict[str, frozenset[str]] = {
    "min_c": frozenset({"min", "minimum", "mintemp", "tmin", "tn", "low", "lowest", "lo"}),
    "max_c": frozenset({"max", "maximum", "maxtemp", "tmax", "tx", "high", "highest", "hi"}),
}
MEANS = frozenset(
    {"mean", "average", "avg", "ave", "tmean", "tavg", "tave", "tg", "temp", "temperature", "air"}
)
SOMETHING_ELSE = frozenset(
    {"dew", "dewpoint", "feels", "chill", "index", "bulb", "wet", "grass", "concrete", "leaf", "snow"}
    | {"rate", "intensity", "direction", "dir", "run", "gust", "gusts", "pressure", "barometer"}
    | {"indoor", "inside", "et", "et0", "eto", "evapotranspiration", "radiation", "solar", "uv"}
)
AT_100_MM = frozenset({"100", "100mm", "10", "10cm", "4", "4in"})


@dataclass(frozen=True)
class Column:
    """Where a quantity stands, counted from 0, and the key of its unit; none where there is but one."""

    place: int
    unit: str = ""


def recognised(headers: Sequence[str], usual: int = METRIC) -> dict[str, Column]:
    """What each header says that can be understood: quantity (or DAY) → its column; the first of two wins.

    ``usual`` is METRIC or US: the unit of headers that name none.
    """
    columns: dict[str, Column] = {}
    for place, header in sorted(enumerate(headers), key=lambda one: _is_deeper_soil(one[1])):
        key = quantity_of(header)
        if key is not None:
            columns.setdefault(key, Column(place, unit_of(header, key, usual)))
    return columns


def quantity_of(header: str) -> str | None:
    """The quantity that a header names, DAY for the day, None where it is not understood."""
    words = words_of(header)
    if words & SOMETHING_ELSE:
        return None
    if words & DAY_WORDS or words == {"day"}:
        return DAY
    extreme = next((key for key, names in EXTREMES.items() if words & names), None)
    quantity = next((key for key, names in QUANTITIES.items() if words & names), None)
    if quantity is not None:
        return quantity if extreme is None else None
    return extreme or ("mean_c" if words & MEANS else None)


def words_of(header: str) -> set[str]:
    """The words of a header: "MaxTemp (°C)" and "max_temp" alike hold max and temp."""
    parted = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", header)
    return set(re.findall(r"[a-z0-9]+", parted.lower()))


def unit_of(header: str, key: str, usual: int = METRIC) -> str:
    """The unit that a header names for a quantity, else the usual one."""
    units = UNITS_OF.get(key, ())
    bare = header.lower().replace("_", " ")
    named = (unit for unit in units if re.search(UNIT_SIGNS[unit], bare))
    return next(named, units[usual] if units else "")


def is_enough(columns: Mapping[str, Column]) -> bool:
    """Whether there is a day and at least one figure."""
    return DAY in columns and len(columns) > 1


def _is_deeper_soil(header: str) -> bool:
    words = words_of(header)
    return bool(words & QUANTITIES["soil_100_c"]) and not words & AT_100_MM
