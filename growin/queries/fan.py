"""The day of opening as a strip of days: what its picture and its table say."""

from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy.forecast import Forecast, chance_words
from growin.agronomy.plain_words import day

WEEK, DAYS_SMOOTHED = timedelta(days=7), 7
LEAST, MOST = 0.005, 0.995
MOST_BARS = 240
DAY = timedelta(days=1)


@dataclass(frozen=True)
class Fan:
    """``chances`` are those of being ready by each day from ``first`` on; the 10, 50 and 90 % days may
    lie beyond them (None), ``proposed`` is the day the committee has in mind."""

    first: date
    chances: tuple[float, ...]
    p10: date | None
    p50: date | None
    p90: date | None
    proposed: date | None = None

    @property
    def marks(self) -> list[tuple[date, str]]:
        """The three days with their words."""
        said = ((self.p10, "1 in 10"), (self.p50, "as likely as not"), (self.p90, "9 in 10"))
        return [(on, words) for on, words in said if on]

    def chance_by(self, on: date) -> float:
        """Chance that it is ready by a day."""
        number = (on - self.first).days
        return 0.0 if number < 0 else self.chances[min(number, len(self.chances) - 1)]

    @property
    def span(self) -> tuple[date, date]:
        """The days worth drawing: from the first chance to the last, with the day in mind."""
        top = self.chances[-1]
        first = next((n for n, one in enumerate(self.chances) if one >= LEAST * top), 0)
        last = next((n for n, one in enumerate(self.chances) if one >= MOST * top), len(self.chances) - 1)
        days = [self.first + timedelta(days=max(first - 3, 0)), self.first + timedelta(days=last + 3)]
        known = [*days, *(on for on, _ in self.marks), *([self.proposed] if self.proposed else [])]
        return min(known), max(known)

    @property
    def bar_days(self) -> int:
        """Days that one bar of the picture stands for."""
        first, last = self.span
        return max(1, (last - first).days // MOST_BARS)

    @property
    def density(self) -> list[tuple[date, float]]:
        """How likely each bar of the span is to hold the day; the likeliest is 1.

        A bar is a day, or several where the span is long; smoothed over a week, or a thirtieth of the span.
        """
        first, last = self.span
        length = (last - first).days
        days = [first + timedelta(days=n) for n in range(0, length + 1, self.bar_days)]
        half = timedelta(days=max(DAYS_SMOOTHED, length // 30) // 2)
        each = [self.chance_by(on + half) - self.chance_by(on - half - DAY) for on in days]
        top = max(each) or 1.0
        return [(on, one / top) for on, one in zip(days, each, strict=True)]

    @property
    def weeks(self) -> list[tuple[date, float, str]]:
        """Week by week, with the days of note: the day, the chance by then in %, and in words."""
        first, last = self.span
        days = [first + n * WEEK for n in range((last - first) // WEEK + 2)]
        days = sorted({*days, *(on for on, _ in self.marks), *([self.proposed] if self.proposed else [])})
        return [(on, 100 * self.chance_by(on), chance_words(self.chance_by(on))) for on in days]

    @property
    def in_words(self) -> str:
        """The picture for those who cannot see it."""
        marks = "; ".join(f"{words} by {day(on, self.first)}" for on, words in self.marks)
        said = [f"When it may be ready: {marks}" if marks else "No day is likely yet"]
        if self.p90 is None:
            said.append("Chances beyond the days looked at are not known")
        if self.proposed:
            chance = chance_words(self.chance_by(self.proposed))
            said.append(f"By the day in mind, {day(self.proposed, self.first)}: {chance}")
        return ". ".join(said) + "."


def fan_of(forecast: Forecast | None, proposed: date | None = None) -> Fan | None:
    """The fan of a forecast; None without one."""
    if forecast is None:
        return None
    return Fan(forecast.starts_on, forecast.chances, forecast.p10, forecast.p50, forecast.p90, proposed)
