"""Readings of one measure on their clock: each set with its interval, against the rule it is judged by."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import accumulate

from greens.models import Establishment, Green, ReadingSet
from greens.queries import greens, readings
from greens.queries import settings as constants
from growin.agronomy.climate import Climate, DayClock
from growin.agronomy.criteria import criteria_for
from growin.agronomy.limit_lines import LimitLine, limit_lines
from growin.agronomy.measure import SHAPE_NUMBER, SHAPE_ROLLS, Measure
from growin.agronomy.plain_words import amount, counted, day
from growin.agronomy.programme import pace
from growin.agronomy.season import year_start
from growin.queries.story import climate_of

YEAR = timedelta(days=365)
IN_NUMBERS = (SHAPE_NUMBER, SHAPE_ROLLS)


@dataclass(frozen=True)
class Point:
    """One set: its day, the clock by then, the mean (or share in %) with its interval, single values."""

    reading_set: ReadingSet
    clock: float
    centre: float
    low: float | None
    high: float | None
    values: tuple[float, ...] = ()

    @property
    def on(self) -> date:
        return self.reading_set.on

    @property
    def count(self) -> int:
        return len(self.reading_set.values)


@dataclass(frozen=True)
class ReadingLine:
    """What the picture draws.

    ``begun`` is laying or sowing, in later years midwinter; ``months`` pairs the clock of each first of a
    month with that day.
    """

    measure: Measure
    unit: str
    clock_unit: str
    begun: str
    laid_on: date
    until: float
    points: tuple[Point, ...]
    limits: tuple[LimitLine, ...]
    months: tuple[tuple[float, date], ...]

    @property
    def in_words(self) -> str:
        """The picture for those who cannot see it."""
        first, last = self.points[0], self.points[-1]
        span = f"on {day(first.on)}" if first is last else f"from {day(first.on)} to {day(last.on)}"
        asked = "; ".join(one.words for one in self.limits)
        said = [
            f"{self.measure.words} by {self.clock_unit} since {self.begun} on {day(self.laid_on)}",
            f"{counted(len(self.points), 'sets')} {span}",
            f"the last {self.shown(last.centre)}{self.likely(last)}",
            asked and f"asked: {asked}",
        ]
        return ". ".join(one[:1].upper() + one[1:] for one in said if one) + "."

    def shown(self, value: float) -> str:
        return amount(value, self.unit)

    def likely(self, point: Point) -> str:
        """ ", likely 45 to 60 mm"; empty for one value."""
        if point.low is None:
            return ""
        return f", likely {amount(point.low)} to {amount(point.high, self.unit)}"

    @property
    def rows(self) -> list[tuple[Point, str, str]]:
        """Each set as a table says it, the newest first: mean or share, and its interval."""
        likely = (self.likely(one).removeprefix(", likely ") for one in self.points)
        rows = zip(self.points, (self.shown(one.centre) for one in self.points), likely, strict=True)
        return list(rows)[::-1]


def reading_line(green: Green, measure: Measure, as_of: date) -> ReadingLine | None:
    """Sets of the newest rebuild from where its clock begins; None where there is none, or no clock."""
    rebuilt = greens.current_establishment(green)
    if rebuilt is None or rebuilt.established_on is None:
        return None
    laid, begun = since(rebuilt, as_of)
    sets = readings.of_establishment(rebuilt).filter(measure=measure.key, on__range=(laid, as_of))
    rows, climate = list(sets.order_by("on", "pk")), climate_of(green.club, (laid, as_of))
    if not rows or climate is None:
        return None
    settings = constants.in_force(green.club, as_of, green)
    clock, clock_unit = clock_of(rebuilt, settings)
    run = clock_by_day(climate, clock, laid, as_of)
    return ReadingLine(
        measure=measure,
        unit=measure.unit if measure.shape in IN_NUMBERS else "%",
        clock_unit=clock_unit,
        begun=begun,
        laid_on=laid,
        until=run[as_of],
        points=tuple(_point(row, run[row.on], settings) for row in rows),
        limits=limits_of(rebuilt, measure, settings),
        months=tuple((worth, on) for on, worth in run.items() if on.day == 1),
    )


def since(rebuilt: Establishment, as_of: date) -> tuple[date, str]:
    """Where the clock begins: at laying or sowing, in later years at the last midwinter but one."""
    laid = rebuilt.established_on
    before = year_start(as_of, float(rebuilt.green.club.latitude_deg)).replace(day=1)
    before = before.replace(year=before.year - 1)
    if laid < before - YEAR:
        return before, "midwinter"
    return laid, "laying" if rebuilt.is_turf else "sowing"


def clock_of(rebuilt: Establishment, settings: dict) -> tuple[DayClock, str]:
    """Warmth above 0 °C for turf, growth days for seed."""
    if rebuilt.is_turf:
        return pace.root_clock(settings), "°C·days"
    return pace.seed_clock(settings), "growth days"


def clock_by_day(climate: Climate, clock: DayClock, first: date, last: date) -> dict[date, float]:
    """What the clock has run by the morning of each day."""
    days = [first + timedelta(days=n) for n in range((last - first).days + 1)]
    return dict(
        zip(days, accumulate((climate.worth(clock, on) for on in days[:-1]), initial=0.0), strict=True)
    )


def _point(row: ReadingSet, clock: float, settings: dict) -> Point:
    told, scale = row.in_short(settings), 1 if row.kind.shape in IN_NUMBERS else 100
    low, high = told.interval or (None, None)
    single: Sequence = row.values if row.kind.shape == SHAPE_NUMBER else ()
    bounds = (None, None) if low is None else (low * scale, high * scale)
    return Point(row, clock, told.mean * scale, *bounds, tuple(map(float, single)))


def limits_of(rebuilt: Establishment, measure: Measure, settings: dict) -> tuple[LimitLine, ...]:
    """The lines of the rule that judges the measure on such a rebuild."""
    from_seed = not rebuilt.is_turf
    for criterion in criteria_for(from_seed):
        for part in criterion.parts_for(from_seed):
            if part.measure == measure.key:
                return limit_lines(part.rule(settings), measure.unit)
    return ()
