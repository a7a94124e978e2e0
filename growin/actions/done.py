"""One tap: the diary entry that a step asked for, and its tick, in one go."""

from datetime import date
from uuid import UUID

from django.db import transaction

from greens.actions.diary import record_work
from greens.actions.people import NotPossible
from greens.models import Entry, Establishment, Membership
from greens.queries import diary
from growin.actions.answer import step_of, tick
from growin.actions.version import hold
from growin.models import AnswerKind, ProgrammeStep
from growin.queries import amounts
from growin.queries import programme as queries


@transaction.atomic
def done_as_planned(
    *,
    establishment: Establishment,
    key: str,
    by: Membership,
    on: date,
    done_by: Membership | None = None,
    shown: int | None = None,
    client_id: UUID | None = None,
) -> Entry:
    """An entry with the planned amount, answering the step; a second tap finds the first one's entry.

    ``shown`` is the row of the step that was on screen: where the programme was drawn anew since, what
    was planned there is what was done, and a step that is no more is not ticked.

    Raises NotPossible where the plan does not say enough for an entry, DetailError as record_work.
    """
    hold(establishment)
    kept = queries.answers([establishment]).get((establishment.pk, key))
    if kept and kept.kind == AnswerKind.DONE and kept.entry:
        return kept.entry
    step, green = as_shown(establishment, key, shown), establishment.green
    planned = amounts.as_planned(step, green.area_m2, amounts.store_of(green.club))
    if planned is None:
        raise NotPossible(f"“{step.what}” wants more than a tap: log it with its particulars.")
    entry = record_work(
        club=green.club,
        by=by,
        done_by=done_by or by,
        kind=step.kind,
        on=on,
        greens=[green],
        details=planned.details,
        products=[(one.label, one.amount) for one in planned.products],
        client_id=client_id,
    )
    if queries.stands(establishment, key):
        tick(establishment=establishment, key=key, by=by, on=on, entry=entry)
    return entry


def as_shown(establishment: Establishment, key: str, shown: int | None) -> ProgrammeStep:
    """The step as somebody saw it, in whatever version; without a word of that, as it stands now."""
    seen = queries.of_any_version(establishment, key).filter(pk=shown).first() if shown else None
    return seen or step_of(establishment, key)


@transaction.atomic
def walked(
    *,
    establishment: Establishment,
    by: Membership,
    on: date,
    done_by: Membership | None = None,
    client_id: UUID | None = None,
    **tap,
) -> Entry:
    """Walked it, all well: an entry a day, and the tick of the walk where one was due."""
    green = establishment.green
    hold(establishment)
    kept = diary.on_green(diary.of(green.club), green).filter(kind="walk", on=on).first()
    if kept:
        return kept
    said = {"kind": "walk", "on": on, "greens": [green], "client_id": client_id}
    entry = record_work(club=green.club, by=by, done_by=done_by or by, **said)
    for standing in queries.matches([establishment], "walk", on)[:1]:
        if standing.step.earliest <= on:
            tick(establishment=establishment, key=standing.step.key, by=by, on=on, entry=entry)
    return entry
