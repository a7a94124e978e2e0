"""The story looks ahead: forecasts on the way to today, and a day that the committee has in mind."""

from datetime import date, timedelta

from greens.choices import Role
from greens.models import Club, Establishment
from greens.queries import greens
from growin.actions.forecast import keep
from growin.actions.proposal import propose
from growin.agronomy.verdict import READY
from growin.evidence import verdict_of
from growin.models import Pattern
from growin.queries.decision import play_states

WEEKS_BACK = (9, 5, 3, 2, 1, 0)
SATURDAY = 5
#: Further off than the fortnight in which readings must be fresher, so that the verdict stays the story's.
EARLIEST, LATEST = timedelta(days=15), timedelta(days=350)
#: A committee hopes for a day before the likely one.
HOPES_FOR = timedelta(days=10)


def look_ahead(club: Club, today: date) -> None:
    """A Saturday proposed for the first green that is not ready; a forecast of every green in grow-in."""
    waiting = growing_in(club, today)
    unready = {one: keep(one, today).p50 or today for one in waiting if verdict_of(one, today).state != READY}
    for rebuilt in sorted(unready, key=unready.get)[-1:]:
        hoped = min(max(unready[rebuilt] - HOPES_FOR, today + EARLIEST), today + LATEST)
        by = club.memberships.get(role=Role.COMMITTEE)
        propose(establishment=rebuilt, by=by, opening_on=saturday(hoped), pattern=Pattern.LIMITED)
    for rebuilt in waiting:
        for weeks in WEEKS_BACK:
            on = today - timedelta(weeks=weeks)
            if on >= rebuilt.established_on:
                keep(rebuilt, on)


def growing_in(club: Club, today: date) -> list[Establishment]:
    """Rebuilds of the club between laying and opening."""
    plays = play_states(club, today)
    rebuilt = greens.current_establishments(club).values()
    return [one for one in rebuilt if one.established_on and not (one.pk in plays and plays[one.pk].is_open)]


def saturday(on: date) -> date:
    """That day, or the next Saturday."""
    return on + timedelta(days=(SATURDAY - on.weekday()) % 7)
