"""What a member wishes to be told by e-mail, how soon, of which greens, and when not."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from types import MappingProxyType
from zoneinfo import ZoneInfo

from django.db import models

from greens import hours
from greens.choices import NoticeKind, Pace, Role

DAILY_AT, QUIET_FROM, QUIET_UNTIL = time(6, 30), time(21, 0), time(6, 0)
WEEK = timedelta(days=7)

_EVERYBODY = {NoticeKind.AGAINST: Pace.AT_ONCE, NoticeKind.OPENING: Pace.AT_ONCE}
#: What each role is told, and how soon unless the member wishes otherwise.
PACES: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        Role.HEAD: _EVERYBODY
        | {
            NoticeKind.PLAY: Pace.AT_ONCE,
            NoticeKind.WEATHER: Pace.AT_ONCE,
            NoticeKind.CEILING: Pace.DAILY,
            NoticeKind.RECHECK: Pace.DAILY,
            NoticeKind.STEPS: Pace.DAILY,
            NoticeKind.READINGS: Pace.DAILY,
            NoticeKind.CRITERION: Pace.AT_ONCE,
            NoticeKind.STOCK: Pace.DAILY,
            NoticeKind.DEFECT: Pace.DAILY,
            NoticeKind.NOTE: Pace.WEEKLY,
        },
        Role.STAFF: _EVERYBODY
        | {
            NoticeKind.PLAY: Pace.AT_ONCE,
            NoticeKind.WEATHER: Pace.AT_ONCE,
            NoticeKind.RECHECK: Pace.DAILY,
            NoticeKind.STEPS: Pace.DAILY,
            NoticeKind.READINGS: Pace.DAILY,
        },
        Role.COMMITTEE: _EVERYBODY
        | {
            NoticeKind.PLAY: Pace.AT_ONCE,
            NoticeKind.CRITERION: Pace.WEEKLY,
            NoticeKind.NOTE: Pace.WEEKLY,
        },
        Role.ADVISER: _EVERYBODY
        | {
            NoticeKind.PLAY: Pace.WEEKLY,
            NoticeKind.CRITERION: Pace.WEEKLY,
            NoticeKind.NOTE: Pace.WEEKLY,
        },
    }
)


@dataclass(frozen=True)
class Due:
    """When a notice is to be mailed, and the day or week that its mail is of; empty for one at once."""

    at: datetime
    period: str = ""


class Wish(models.Model):
    """One of a member; without a row the defaults count. ``paces`` holds only what differs from the role's.

    ``no_mail_since`` is set by the link at the foot of every mail: nothing is mailed any more.
    """

    member = models.OneToOneField("greens.Membership", models.CASCADE, related_name="wish")
    paces = models.JSONField(default=dict, blank=True)
    left_out = models.ManyToManyField("greens.Green", blank=True, related_name="+")
    daily_at = models.TimeField(default=DAILY_AT)
    weekly_on = models.PositiveSmallIntegerField(default=0)
    quiet_from = models.TimeField(null=True, blank=True, default=QUIET_FROM)
    quiet_until = models.TimeField(null=True, blank=True, default=QUIET_UNTIL)
    no_mail_since = models.DateTimeField(null=True, blank=True)

    def __str__(self):
        return f"wishes of {self.member}"

    def pace(self, kind: str) -> str:
        """How soon a kind is mailed; what the role is not told by itself comes at once when it comes."""
        return self.paces.get(kind) or PACES[self.member.role].get(kind, Pace.AT_ONCE)

    def due(self, kind: str, now: datetime, zone: ZoneInfo) -> Due | None:
        """When a notice of this kind that is made now is mailed; None where it stands on the site only."""
        pace = self.pace(kind)
        if self.no_mail_since or pace == Pace.SITE:
            return None
        if pace == Pace.DAILY:
            moment = hours.next_daily(now, zone, self.daily_at)
            return Due(moment, f"day {moment.astimezone(zone):%Y-%m-%d}")
        if pace == Pace.WEEKLY:
            moment = hours.next_weekly(now, zone, self.daily_at, self.weekly_on)
            return Due(moment, f"week {moment.astimezone(zone).date() - WEEK:%Y-%m-%d}")
        return Due(hours.after_quiet(now, zone, self.quiet_from, self.quiet_until))

    def wakes(self, on: date, zone: ZoneInfo) -> datetime:
        """The moment at which what was put aside until a day comes up again."""
        return hours.at(zone, on, self.daily_at)
