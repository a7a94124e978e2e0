"""One tap for many greens: work done as planned, the walk, and what the weather stopped."""

from collections.abc import Iterable, Sequence
from datetime import date
from uuid import UUID

from django.db import transaction

from greens.actions.diary import record_work
from greens.actions.people import NotPossible
from greens.models import Club, Entry, Establishment, Membership
from greens.queries import diary
from growin.actions.answer import stopped_by_weather
from growin.actions.diary import Step, log_work
from growin.agronomy.works import WORKS
from growin.queries import amounts
from growin.queries import programme as queries
from growin.queries.line import Line
from growin.queries.together import as_one

NOTHING_LEFT = "Nothing is left to be said of that: it was answered meanwhile."


@transaction.atomic
def done_together(
    *, club: Club, shown: Iterable[int], by: Membership, done_by: Membership, on: date, client_id: UUID
) -> Entry:
    """One entry for all greens on which this was due, with the amounts planned; it answers every step.

    ``shown`` are the rows of the steps that were on screen: where a programme was drawn anew since, what
    was planned there is what was done, and a step that is no more is not ticked. A second tap of the same
    form finds the first one's entry. Raises NotPossible where all of it was answered or the plan does not
    say enough, DetailError as record_work.
    """
    kept = diary.arrived(club, client_id)
    if kept:
        return kept
    steps = queries.still_to_do(club, shown)
    if not steps:
        raise NotPossible(NOTHING_LEFT)
    planned = as_one(steps, amounts.store_of(club))
    if planned is None:
        raise NotPossible(f"{WORKS[steps[0].kind].words}: log it with its particulars.")
    return log_work(
        club=club,
        by=by,
        done_by=done_by,
        kind=steps[0].kind,
        on=on,
        greens=[one.programme.establishment.green for one in steps],
        details=planned.details,
        products=[(one.label, one.amount) for one in planned.products],
        client_id=client_id,
        answers=queries.still_standing(steps),
    )


@transaction.atomic
def walk_all(
    *,
    club: Club,
    rebuilds: Sequence[Establishment],
    walks: Sequence[Line],
    by: Membership,
    done_by: Membership,
    on: date,
    client_id: UUID,
) -> Entry:
    """Walked them all, all well: one entry, and the tick of every walk that was due; raises as above."""
    kept = diary.arrived(club, client_id)
    if kept:
        return kept
    if not rebuilds:
        raise NotPossible("Every green was walked already.")
    said = {"kind": "walk", "on": on, "greens": [one.green for one in rebuilds], "client_id": client_id}
    return log_work(club=club, by=by, done_by=done_by, answers=steps_of(walks), **said)


@transaction.atomic
def weather_stopped(
    *, club: Club, lines: Sequence[Line], by: Membership, done_by: Membership, on: date, client_id: UUID
) -> Entry:
    """None of it was done that day: one entry, and every step is asked for again on the morrow.

    Taking the entry back takes that back too. Raises NotPossible where nothing is left.
    """
    kept = diary.arrived(club, client_id)
    if kept:
        return kept
    if not lines:
        raise NotPossible(NOTHING_LEFT)
    greens = list({one.green.pk: one.green for one in lines}.values())
    said = {"kind": "not_done", "on": on, "greens": greens, "client_id": client_id}
    entry = record_work(club=club, by=by, done_by=done_by, **said)
    for establishment, key in steps_of(lines):
        stopped_by_weather(establishment=establishment, key=key, by=by, on=on, entry=entry)
    return entry


def steps_of(lines: Sequence[Line]) -> list[Step]:
    return [(one.standing.establishment, one.step.key) for one in lines]
