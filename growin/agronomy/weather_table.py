"""A table of weather made into days: what can be kept, what cannot and why, what is asked back.

Nothing is guessed silently. A row that cannot be is refused with its number and a sentence by the
same rule as a day written by hand; temperatures that would suit the place better in the other
unit are asked back; days that stand twice or out of order are said.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

import numpy as np
import pandas as pd

from growin.agronomy.climate import Climate
from growin.agronomy.fields import DetailError
from growin.agronomy.measured_days import FAR_FROM_NORMAL_C
from growin.agronomy.plain_words import amount
from growin.agronomy.units import unit_named
from growin.agronomy.weather_cells import DAY_FIRST, as_days, as_figures
from growin.agronomy.weather_columns import DAY, Column
from growin.agronomy.weather_day import WEATHER, clean_weather

AIR = ("min_c", "max_c", "mean_c")
OTHER_UNIT = {"c": "f", "f": "c"}
UNIT_WORDS = {"c": "Celsius", "f": "Fahrenheit"}
#: Temperatures so far from the normals, and less than half as far in the other unit, are asked back
#: (our judgement); without normals a place of the temperate zones is taken.
FAR_C, TEMPERATE_C = 12.0, 12.0
#: A table with more rows to a day than this holds hours, not days (our judgement).
MOST_ROWS_A_DAY = 1.5


class NotDaily(ValueError):
    """A table that holds no days, or hours instead of days; the message is for people."""


@dataclass(frozen=True)
class Wrong:
    """A row that cannot be kept, by its number in the file, and why."""

    row: int
    sentence: str


@dataclass(frozen=True)
class UnitDoubt:
    """Temperatures read in ``unit`` lie ``off_c`` from the normals, in ``instead`` only ``instead_off_c``."""

    unit: str
    off_c: float
    instead: str
    instead_off_c: float

    @property
    def unit_words(self) -> str:
        """The unit they were read in, in words."""
        return UNIT_WORDS[self.unit]

    @property
    def instead_unit_words(self) -> str:
        """The unit that would suit the place, in words."""
        return UNIT_WORDS[self.instead]

    @property
    def off_words(self) -> str:
        """How far from the normals, as in "29 °C above"."""
        return _off(self.off_c)

    @property
    def instead_words(self) -> str:
        """The same in the other unit."""
        return _off(self.instead_off_c)


def _off(by_c: float) -> str:
    if abs(by_c) < 1:
        return "within 1 °C of"
    return f"{abs(by_c):.0f} °C {'below' if by_c < 0 else 'above'}"


@dataclass(frozen=True)
class Days:
    """What a table says: figures by day in order, and all that is to be said about it."""

    figures: Mapping[date, dict] = field(default_factory=dict)
    wrong: tuple[Wrong, ...] = ()
    said_twice: int = 0
    without_figures: int = 0
    steps_back: int = 0
    is_newest_first: bool = False
    order: str = DAY_FIRST
    doubt: UnitDoubt | None = None

    @property
    def first(self) -> date:
        """The first day that can be kept; there must be one."""
        return min(self.figures)

    @property
    def last(self) -> date:
        """The last day that can be kept; there must be one."""
        return max(self.figures)

    @property
    def gaps(self) -> list[tuple[date, date]]:
        """First and last day of every run of days that are missing between the first and the last."""
        days = pd.DatetimeIndex(list(self.figures))
        ends = np.flatnonzero(np.diff(days.to_numpy()) > np.timedelta64(1, "D"))
        one = pd.Timedelta(days=1)
        return [((days[at] + one).date(), (days[at + 1] - one).date()) for at in ends]

    @property
    def is_out_of_order(self) -> bool:
        """Whether the days run neither forwards nor backwards."""
        return self.steps_back > 0 and not self.is_newest_first


@dataclass(frozen=True)
class Bounds:
    """What a day may be: from ``earliest`` to ``latest``, beside the normals where there are any."""

    earliest: date
    latest: date
    climate: Climate | None = None

    def normal_c(self, on: date) -> float:
        """The mean to be expected of a day, °C."""
        return TEMPERATE_C if self.climate is None else self.climate.normal_c(on)


def read_days(
    table: pd.DataFrame,
    columns: Mapping[str, Column],
    bounds: Bounds,
    *,
    usual_order: str = DAY_FIRST,
    order: str | None = None,
    is_unit_sure: bool = False,
) -> Days:
    """Days of a table of texts, one row a day; the index is the number of the row in its file.

    Parameters
    ----------
    table : texts, columns counted from 0.
    columns : quantity → its column and unit; DAY among them.
    bounds : which days and temperatures can be.
    usual_order : whether day or month comes first where the days do not tell.
    order : which does come first, where somebody said so.
    is_unit_sure : temperatures are in the unit that is said; no doubt is raised.

    Raises
    ------
    NotDaily
        When not one cell is a day, or most days stand several times.
    """
    on, order = as_days(table[columns[DAY].place], usual_order, order)
    if on.isna().all():
        raise NotDaily("No row of this file has a day in the column of days; choose the column by hand.")
    wrong = _not_days(table[columns[DAY].place], on, bounds)
    figures, not_figures = _figures(table, columns)
    good = figures.drop(index=[*wrong, *not_figures])
    days = on.drop(index=[*wrong, *not_figures])
    good, days, twice, said_twice = _once(good, days)
    doubt = None if is_unit_sure else unit_doubt(good, days, columns, bounds)
    kept, impossible = ({}, {}) if doubt else _clean(good, days, bounds)
    return Days(
        figures=dict(sorted(kept.items())),
        wrong=tuple(Wrong(*one) for one in sorted((wrong | not_figures | twice | impossible).items())),
        said_twice=said_twice,
        without_figures=int(good.isna().all(axis="columns").sum()),
        order=order,
        doubt=doubt,
        **_running(on.dropna()),
    )


def _not_days(texts: pd.Series, on: pd.Series, bounds: Bounds) -> dict[int, str]:
    """Rows without a day that can be, each with its sentence."""
    no_day = {
        row: f"“{str(text)[:30]}” is not a day; write it as 2026-04-16 or 16/04/2026."
        for row, text in texts[on.isna()].items()
    }
    late, early = on > pd.Timestamp(bounds.latest), on < pd.Timestamp(bounds.earliest)
    return (
        no_day
        | {row: f"{day:%d %B %Y} lies in the future." for row, day in on[late].items()}
        | {row: f"{day:%d %B %Y} lies before {bounds.earliest.year}." for row, day in on[early].items()}
    )


def _figures(table: pd.DataFrame, columns: Mapping[str, Column]) -> tuple[pd.DataFrame, dict[int, str]]:
    """Figures in their stored units, and rows with a cell that holds none, each with its sentence."""
    figures, wrong = {}, {}
    for key, column in columns.items():
        if key == DAY:
            continue
        texts = table[column.place]
        read, is_wrong = as_figures(texts, has_traces=key == "rain_mm")
        figures[key] = in_stored_unit(read, column.unit)
        for row, text in texts[is_wrong].items():
            wrong.setdefault(row, f"{WEATHER[key].words}: “{str(text)[:30]}” is not a number.")
    return pd.DataFrame(figures, index=table.index), wrong


def in_stored_unit(figures: pd.Series, unit: str) -> pd.Series:
    """Figures of a unit in °C, mm or m/s."""
    if not unit:
        return figures
    given = unit_named(unit)
    return figures * float(given.factor) + float(given.offset)


def _refuse_hours(on: pd.Series) -> None:
    rows, days = len(on), on.nunique()
    if rows > MOST_ROWS_A_DAY * days and days > 1:
        raise NotDaily(
            f"Each day stands {rows / days:.0f} times in this file ({rows:,} rows for {days:,} days); "
            "have the station write one row a day."
        )


def unit_doubt(
    figures: pd.DataFrame, days: pd.Series, columns: Mapping[str, Column], bounds: Bounds
) -> UnitDoubt | None:
    """Whether the temperatures would suit the place far better in the other unit."""
    air = [key for key in AIR if key in figures]
    read = figures[air].mean(axis="columns").dropna()
    units = {columns[key].unit for key in air}
    if read.empty or len(units) > 1:
        return None
    unit = units.pop()
    instead = read * 1.8 + 32 if unit == "f" else (read - 32) / 1.8
    normals = pd.Series([bounds.normal_c(day) for day in days[read.index].dt.date], index=read.index)
    off, instead_off = (float((one - normals).median()) for one in (read, instead))
    if abs(off) > FAR_C and abs(instead_off) < abs(off) / 2:
        return UnitDoubt(unit, off, OTHER_UNIT[unit], instead_off)
    return None


def _once(good: pd.DataFrame, days: pd.Series) -> tuple[pd.DataFrame, pd.Series, dict[int, str], int]:
    """Each day once: the same figures twice are one day, different ones are refused with both rows."""
    whole = good.round(1).assign(**{DAY: days})
    again = whole.duplicated()
    _refuse_hours(days[~again])
    differing = whole[~again].duplicated(DAY, keep=False)
    rows = differing.index[differing]
    together = days[rows].groupby(days[rows]).groups
    wrong = {
        row: f"{day:%d %B %Y} stands in rows {_listed(among)} with different figures."
        for day, among in together.items()
        for row in among
    }
    left = ~again & ~good.index.isin(rows)
    return good[left], days[left], wrong, int(again.sum())


def _listed(rows) -> str:
    numbers = [f"{row}" for row in rows[:5]]
    return ", ".join(numbers[:-1]) + f" and {numbers[-1]}"


def _clean(good: pd.DataFrame, days: pd.Series, bounds: Bounds) -> tuple[dict, dict[int, str]]:
    """The figures of every day by the rule of a day by hand, and rows that cannot be."""
    kept, wrong = {}, {}
    columns = good.columns
    for row, on, values in zip(good.index, days.dt.date, good.to_numpy().tolist(), strict=True):
        given = {key: rounded(key, one) for key, one in zip(columns, values, strict=True) if one == one}
        if not given:
            continue
        try:
            require_near_normal(on, clean_weather(given), bounds)
        except DetailError as refused:
            wrong[row] = " ".join(refused.errors.values())
        else:
            kept[on] = given
    return kept, wrong


def rounded(key: str, value: float) -> float:
    """A figure as finely as it is kept."""
    if WEATHER[key].whole and np.isfinite(value):
        return round(value)
    return round(value, 1) + 0.0


def require_near_normal(on: date, cleaned: Mapping, bounds: Bounds) -> None:
    """Refuse a mean that no day of that season has had. Raises DetailError."""
    mean_c = cleaned.get("mean_c")
    if mean_c is None or bounds.climate is None:
        return
    normal_c = bounds.climate.normal_c(on)
    if abs(mean_c - normal_c) > FAR_FROM_NORMAL_C:
        raise DetailError(
            {
                "mean_c": f"A mean of {amount(mean_c, '°C')} is {abs(mean_c - normal_c):.0f} °C from the "
                f"normal of that day, {amount(normal_c, '°C')}; a broken sensor or another unit."
            }
        )


def _running(on: pd.Series) -> dict:
    """How often a day stands before the one above it, and whether all run backwards."""
    steps = on.diff().dropna()
    back = int((steps < pd.Timedelta(0)).sum())
    return {"steps_back": back, "is_newest_first": back > 0 and not (steps > pd.Timedelta(0)).any()}
