"""Moments by the clock on the wall of a club: the next half past six, the end of the quiet hours.

A moment comes in and goes out with its zone; days are counted on the club's calendar, so that half past
six stays half past six on the days of 23 and of 25 hours. A time that the clock leaves out on a day of 23
hours counts as the moment at which it would have come (an hour later on the wall); one that it shows twice
counts the first time.
"""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

A_DAY, A_WEEK = timedelta(days=1), timedelta(days=7)


def at(zone: ZoneInfo, on: date, by_the_wall: time) -> datetime:
    """The moment, in UTC, of a time on the wall on a day."""
    return datetime.combine(on, by_the_wall, zone).astimezone(UTC)


def next_daily(now: datetime, zone: ZoneInfo, by_the_wall: time) -> datetime:
    """The next time that the clock on the wall says so, after ``now``."""
    today = now.astimezone(zone).date()
    moments = (at(zone, today + n * A_DAY, by_the_wall) for n in range(3))
    return next(one for one in moments if one > now)


def next_weekly(now: datetime, zone: ZoneInfo, by_the_wall: time, weekday: int) -> datetime:
    """The next such time on a day of the week (Monday is 0), after ``now``."""
    today = now.astimezone(zone).date()
    first = today + (weekday - today.weekday()) % 7 * A_DAY
    moments = (at(zone, first + n * A_WEEK, by_the_wall) for n in range(2))
    return next(one for one in moments if one > now)


def after_quiet(now: datetime, zone: ZoneInfo, quiet_from: time | None, quiet_until: time | None) -> datetime:
    """``now``, or the end of the quiet hours that it falls into; they may reach over midnight."""
    if quiet_from is None or quiet_until is None or quiet_from == quiet_until:
        return now
    wall = now.astimezone(zone).time()
    over_midnight = quiet_from > quiet_until
    is_quiet = (
        (wall >= quiet_from or wall < quiet_until) if over_midnight else quiet_from <= wall < quiet_until
    )
    return next_daily(now, zone, quiet_until) if is_quiet else now
