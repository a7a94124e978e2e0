"""Looking at clubs for what their people must be told: when the record changed, and every morning.

When is a column, not a delay in a queue: a sweep asks which clubs are due, claims each by a conditional
update, looks, and says when it looks next. A look that dies is taken up by another sweep.
"""

import logging
import time as stopwatch
from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, time, timedelta

from celery import current_app
from django.db import transaction
from django.utils import timezone

from greens import hours, units
from greens.actions.notice import Telling, say_anew, tell_all
from greens.choices import NoticeKind
from greens.models import Club, Membership, Notice
from greens.queries import notice as notices
from greens.queries import wish as wishes
from growin.actions import warning
from growin.evidence.occasions import Seen, seen_in
from growin.evidence.occasions.look import Look
from growin.models import Lookout
from growin.queries import lookout as queries

log = logging.getLogger(__name__)

LOOK = "look at clubs"
#: Before anybody is at work, and before the mail of the day.
EVERY_MORNING = time(5, 0)
LOST_AFTER, AFTER_TROUBLE = timedelta(minutes=10), timedelta(minutes=15)
MOST_AT_ONCE = 500
#: A sweep looks for so long, then leaves the rest to the next.
ENOUGH_S = 3


def look_round() -> int:
    """Look at every club that is due, for a few seconds; how many there were."""
    begin_looking()
    now, enough_at = timezone.now(), stopwatch.monotonic() + ENOUGH_S
    looked = 0
    for one in queries.due(now, now - LOST_AFTER)[:MOST_AT_ONCE]:
        looked += look_at(one)
        if stopwatch.monotonic() > enough_at:
            current_app.send_task(LOOK)
            break
    return looked


def begin_looking() -> None:
    """A lookout for every club that has none."""
    now = timezone.now()
    rows = [Lookout(club=club, look_at=now) for club in queries.without()]
    Lookout.objects.bulk_create(rows, ignore_conflicts=True)


def ask_for_a_look(club: Club) -> None:
    """Something other than the record has changed, such as a forecast: look at all greens of the club."""
    Lookout.objects.filter(club=club, look_at__gt=timezone.now()).update(look_at=timezone.now())


def look_at(lookout: Lookout) -> bool:
    """Look at a club unless somebody else does; a look that fails is tried again, and says why."""
    now = timezone.now()
    free = Lookout.objects.filter(pk=lookout.pk, claimed_at=lookout.claimed_at, look_at=lookout.look_at)
    if not free.filter(mark=lookout.mark).update(claimed_at=now):
        return False
    try:
        _look(lookout, now)
    except Exception as failed:
        log.exception("The look at %s broke", lookout.club)
        trouble = f"{type(failed).__name__}: {failed}"[:300]
        _end(lookout, now, look_at=now + AFTER_TROUBLE, mark=lookout.club.trail_mark, trouble=trouble)
    return True


def _look(lookout: Lookout, now: datetime) -> None:
    """The mark is read before the record, so that what comes in meanwhile asks for another look."""
    club = Club.objects.get(pk=lookout.club_id)
    on = club.local_today()
    by_the_clock = lookout.look_at <= now
    only = None if by_the_clock else queries.changed_greens(lookout)
    with units.shown_in(club.units):
        seen = seen_in(Look(club, on, only), lookout.known)
    known = (lookout.known if only is not None else {}) | seen.known
    next_look = hours.next_daily(now, club.zone, EVERY_MORNING)
    with transaction.atomic():
        say(club, seen, list(wishes.able(club)))
        kept = {"mark": club.trail_mark, "known": known, "looked_at": now, "trouble": ""}
        _end(lookout, now, look_at=next_look, **kept)


def _end(lookout: Lookout, claimed_at: datetime, **values) -> None:
    """Keep how it ended, while it is ours still."""
    Lookout.objects.filter(pk=lookout.pk, claimed_at=claimed_at).update(claimed_at=None, **values)


def say(club: Club, seen: Seen, members: list[Membership]) -> None:
    """Tell what is new, let lapse what holds no more."""
    for kind, green_ids in seen.over.items():
        _lapse(notices.standing_on(club, kind, green_ids))
    for kind, keys in seen.of_club.items():
        _lapse(notices.standing_of_club(club, kind).exclude(key__in=keys))
    with units.shown_in(club.units):
        tellings = [in_units(one) for one in seen.tellings]
    for one in tellings:
        if one.green and one.kind != NoticeKind.NOTE:
            _lapse(notices.standing_on(club, one.kind, [one.green.pk]).exclude(key=one.key))
    with units.shown_in(club.units):
        for one in map(in_units, seen.said_anew):
            say_anew(notices.standing_on(club, one.kind, [one.green.pk]), one)
    for one in (one for one in tellings if one.green is None):
        say_anew(notices.of_keys(club, one.key), one)
    tell_all(club=club, said=[(to, one) for one in tellings for to in wishes.hearing(members, one.kind)])
    warning.hold_against(club, seen.planned, seen.looked_at, members)


def in_units(telling: Telling) -> Telling:
    """Its figures as the club reads them."""
    return replace(telling, subject=units.said(telling.subject), text=units.said(telling.text))


def _lapse(rows: Iterable[Notice]) -> None:
    rows.update(lapsed_at=timezone.now())
