"""The story's days: it is told for the north; in the south the same story stands half a year away."""

from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy.season import northern_month

COLD_C = 7.0  # with normals under this the last week cannot have been a growing one

YOUNG, NEARLY, READY, CLOSED_AGAIN, UNREAD = "young", "nearly", "ready", "closed again", "unread"
_PHASES = ((172, YOUNG), (202, NEARLY), (233, READY), (355, CLOSED_AGAIN))


@dataclass(frozen=True)
class Almanac:
    """``today`` at the club, and the same season's day in the north, from which the story is told."""

    today: date
    latitude_deg: float

    @property
    def northern_today(self) -> date:
        month = northern_month(self.today.month, self.latitude_deg)
        return date(self.today.year, month, min(self.today.day, 28 if month == 2 else 30))

    def local(self, northern: date) -> date:
        """The club's day for a northern day of the story."""
        return northern + (self.today - self.northern_today)

    def last(self, month: int, day: int, before: date | None = None, days: int = 0) -> date:
        """The last such northern day that lies at least ``days`` before ``before`` (today)."""
        limit = (before or self.northern_today) - timedelta(days=days)
        this_year = date(limit.year, month, day)
        return this_year if this_year <= limit else date(limit.year - 1, month, day)

    @property
    def turf_laid(self) -> date:
        """Northern day on which last autumn's turf went down."""
        return self.last(10, 10, days=12)

    @property
    def seed_sown(self) -> date:
        """Northern day of sowing: a spring more than thirteen months ago."""
        return self.last(4, 25, days=396)

    @property
    def phase(self) -> str:
        """How far the turf of last autumn has come by today."""
        age = (self.northern_today - self.turf_laid).days
        return next((phase for days, phase in _PHASES if age <= days), UNREAD)
