"""A club that ends: read only from the day its head greenkeeper says so, erased thirty days later."""

import logging
from datetime import date, timedelta

from django.db import transaction

from greens.actions import device as devices
from greens.actions import trail
from greens.actions.people import post
from greens.models import Club, Membership, Person
from greens.queries import closing as queries
from greens.queries import whole_club
from greens.shelf import clear_club

log = logging.getLogger(__name__)

#: Long enough to take the fair copy away and to think again (our judgement).
GRACE = timedelta(days=30)
#: Days before the end on which everybody is told once more.
TOLD_AGAIN = (7, 1)


@transaction.atomic
def begin(*, club: Club, by: Membership | None) -> date:
    """Nothing is written from now on; the day on which nothing will be left."""
    values = {"closes_on": club.local_today() + GRACE}
    trail.save_changes(row=club, values=values, club=club, by=by, deed="Began to close the club")
    tell(club, days=GRACE.days)
    return club.closes_on


@transaction.atomic
def stop(*, club: Club, by: Membership | None) -> None:
    """The club goes on as it was."""
    trail.save_changes(row=club, values={"closes_on": None}, club=club, by=by, deed="Kept the club open")


def tell(club: Club, days: int) -> None:
    """Once a day at most: everybody of the club who can be reached."""
    today = club.local_today()
    if not Club.objects.filter(pk=club.pk).exclude(closing_told_on=today).update(closing_told_on=today):
        return
    to, words = queries.mailboxes(club), {"club": club, "days": days}
    subject = f"{club.name}: its record ends on {club.closes_on:%d %B %Y}"
    transaction.on_commit(lambda: [post("closing", one, subject, **words) for one in to], robust=True)


def sweep() -> int:
    """Tell what is due, erase what is over; how many clubs went."""
    went = 0
    for club in queries.closing():
        days = (club.closes_on - club.local_today()).days
        if days <= 0:
            went += erase(club=club)
        elif days in TOLD_AGAIN:
            tell(club, days)
    return went


def erase(*, club: Club) -> bool:
    """Every file and every row of the club, and whoever was in no other; false where it goes on after all.

    Files go first: should it break off there, the rows still name what the next try removes.
    """
    if not queries.closing().filter(pk=club.pk).exists():
        return False
    clear_club(club.pk)
    with transaction.atomic():
        if not queries.closing().select_for_update().filter(pk=club.pk).exists():
            return False
        people = list(queries.people_of(club))
        for table in whole_club.tables_of_clubs():
            whole_club.rows(table, club)._raw_delete(club._state.db)
        Club.objects.filter(pk=club.pk).delete()
        forget_people(people)
    log.info("Erased a club that was closed")
    return True


def forget_people(people: list[Person]) -> None:
    for person in people:
        if not person.is_operator and not person.memberships.exists():
            devices.end_all(person=person)
            person.delete()
