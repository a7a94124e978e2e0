"""The days that the programme of a green in play covers, and the months in them."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step
from growin.agronomy.season import local_day, northern_month, year_start

_DAY = timedelta(days=1)


@dataclass(frozen=True)
class Month:
    """A calendar month; ``northern`` is the northern month of its season (in the south July for January)."""

    first: date
    northern: int

    @property
    def last(self) -> date:
        """Its last day."""
        return (self.first + timedelta(days=31)).replace(day=1) - _DAY

    @property
    def days(self) -> list[date]:
        """Every day of it."""
        return [self.first + n * _DAY for n in range((self.last - self.first).days + 1)]

    @property
    def name(self) -> str:
        """As it stands in a key: "2027-05"."""
        return f"{self.first:%Y-%m}"

    def is_within(self, first: float, last: float) -> bool:
        """Whether it lies from one northern month to another, both included, over the new year if need be."""
        if first <= last:
            return first <= self.northern <= last
        return self.northern >= first or self.northern <= last

    def step(self, chain: str, kind: str, day: int, **said) -> Step:
        """A step of this month, likely on a day of it, named by chain and month ("photograph-2027-05")."""
        return Step(
            key=f"{chain}-{self.name}",
            kind=kind,
            earliest=self.first,
            likely=self.first.replace(day=day),
            latest=self.last,
            **said,
        )


@dataclass(frozen=True)
class Span:
    """From ``begins``, the day after the grow-in programme, to ``ends``; drawn ``today``."""

    begins: date
    today: date
    ends: date
    latitude_deg: float

    @property
    def months(self) -> list[Month]:
        """Months of the days to come, the one before today's too: its steps may still be open."""
        lately = (max(self.begins, self.today).replace(day=1) - _DAY).replace(day=1)
        return months_between(lately, self.ends, self.latitude_deg)

    @property
    def years(self) -> list[list[Month]]:
        """The twelve months of every year, from midwinter on, that these days touch."""
        start = year_start(self.months[0].first, self.latitude_deg)
        starts = (start.replace(year=start.year + n) for n in range(self.ends.year - start.year + 1))
        return [months_between(one, one + timedelta(days=360), self.latitude_deg) for one in starts]

    def local_days(self, month: float, day: int) -> list[date]:
        """A northern day of the calendar in each of its years, mirrored in the south."""
        years = range(self.months[0].first.year - 1, self.ends.year + 1)
        return [local_day(year, int(month), day, self.latitude_deg) for year in years]


def span_of(plan: Plan) -> Span | None:
    """The days of a green that is open, as the plan's own day of drawing has it; None for any other."""
    if plan.done.opened_on is None or plan.done.as_of is None:
        return None
    today = plan.done.as_of
    ahead = timedelta(days=round(plan.settings["in_play.ahead_days"]))
    return Span(plan.horizon + _DAY, today, max(today, plan.horizon) + ahead, plan.latitude_deg)


def months_between(first: date, last: date, latitude_deg: float) -> list[Month]:
    """Every month from that of one day to that of another."""
    found, day = [], first.replace(day=1)
    while day <= last:
        found.append(Month(day, northern_month(day.month, latitude_deg)))
        day = (day + timedelta(days=31)).replace(day=1)
    return found


def slots(days: Sequence[date], count: int) -> list[tuple[date, date, date]]:
    """So many turns on these days, evenly: first, middle and last day of each."""
    ends = [len(days) * n // count for n in range(count + 1)]
    parts = [days[begins:stops] for begins, stops in zip(ends, ends[1:], strict=False) if begins < stops]
    return [(part[0], part[len(part) // 2], part[-1]) for part in parts]
