"""This season's warmth beside the club's earlier ones, as a picture and a table show it."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from hashlib import sha256

from django.core.cache import cache

from greens.models import Club
from greens.queries import weather
from growin.agronomy.climate import Climate, DayClock, degree_days
from growin.agronomy.growth import LEAF_BASE_C
from growin.agronomy.plain_words import counted, day
from growin.agronomy.season import year_start
from growin.agronomy.warmth import MOST_EARLIER, Run, Seasons, earlier_than, seasons
from growin.queries.remembered import kept_while_the_frame_stands
from growin.queries.story import climate_of

DAY, WEEK_S = timedelta(days=1), 604_800


@dataclass(frozen=True)
class MonthEnd:
    """The sums by the end of a month, °C·days; ``least`` and ``most`` of the earlier seasons."""

    on: date
    so_far: float
    normal: float
    least: float | None
    most: float | None


@dataclass(frozen=True)
class Season:
    """Warmth above the base of leaf growth since midwinter."""

    warmth: Seasons
    as_of: date

    @property
    def so_far(self) -> float:
        return float(self.warmth.this.sums[-1])

    @property
    def normal(self) -> float:
        return float(self.warmth.normal[len(self.warmth.this.sums) - 1])

    @property
    def estimated_days(self) -> int:
        return int((~self.warmth.this.is_measured).sum())

    @property
    def in_words(self) -> str:
        """What the picture says, for who cannot see it."""
        so_far = f"By {day(self.as_of)} this season had {self.so_far:,.0f} °C·days"
        return f"{so_far}, {self.beside_normal}. {self.beside_earlier}"

    @property
    def beside_normal(self) -> str:
        less = self.so_far - self.normal
        if abs(less) < 1:
            return "as many as normal"
        return f"{abs(less):.0f} °C·days {'fewer' if less < 0 else 'more'} than normal"

    @property
    def beside_earlier(self) -> str:
        count = len(self.warmth.earlier)
        if not count:
            return "No earlier season of the club was measured well enough to stand beside it."
        return f"It is ahead of {self.warmth.ahead_of} of {counted(count, 'earlier seasons')}."

    @property
    def months(self) -> list[MonthEnd]:
        """Every month end of the season so far, and the day itself."""
        start, count = self.warmth.this.start, len(self.warmth.this.sums)
        days = [start + timedelta(days=n) for n in range(count)]
        ends = [n for n, on in enumerate(days) if (on + timedelta(days=1)).day == 1 or n == count - 1]
        return [self.month_end(days[n], n) for n in ends]

    def month_end(self, on: date, n: int) -> MonthEnd:
        least, most = (float(one[n]) for one in self.warmth.span) if self.warmth.span else (None, None)
        return MonthEnd(on, float(self.warmth.this.sums[n]), float(self.warmth.normal[n]), least, most)


@kept_while_the_frame_stands
def season(club: Club, as_of: date) -> Season | None:
    """The season so far, to yesterday where today has no mean yet; None without normals. Three queries."""
    latitude_deg = float(club.latitude_deg)
    start = min(year_start(one, latitude_deg) for one in (as_of, as_of - DAY))
    climate = climate_of(club, (start, as_of))
    if climate is None:
        return None
    clock = degree_days(LEAF_BASE_C)
    last = as_of if climate.is_measured(as_of) else as_of - DAY
    before = earlier(club, climate, clock, year_start(last, latitude_deg))
    return Season(seasons(climate, clock, last, latitude_deg, before), last)


def earlier(club: Club, climate: Climate, clock: DayClock, start: date) -> tuple[Run, ...]:
    """The seasons before this one, worked out anew only where a day of theirs is another; one query."""
    span = start.replace(year=start.year - MOST_EARLIER), start - DAY
    said = (club.pk, start, climate.normals_c, climate.spread_c, *weather.digest(club, *span))

    def anew() -> tuple[Run, ...]:
        return earlier_than(start, replace(climate, daily=weather.means(club, span)), clock)

    return cache.get_or_set(f"seasons:{sha256(repr(said).encode()).hexdigest()}", anew, WEEK_S)
