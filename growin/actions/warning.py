"""The warning against opening too early: who hears it first, and who next when nobody answers.

The chain: where the head greenkeeper hears first, every committee member is next, then the operator of the
site; where the committee hears first, the head greenkeeper and the adviser are next.
"""

import logging
from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta

from django.db import transaction
from django.utils import timezone

from greens import units
from greens.actions import trail
from greens.actions.notice import Telling, supersede, tell_all, tell_operators
from greens.choices import NoticeKind
from greens.models import Club, Membership
from greens.queries import people
from greens.queries import wish as wishes
from growin.agronomy.plain_words import day
from growin.agronomy.slipping import Slip, mark_of, worth_a_word
from growin.evidence.occasions.look import Look
from growin.evidence.occasions.opening import Planned, planned
from growin.evidence.warned import CHAINS, OPERATORS
from growin.models import EarlyWarning, RaisedStep
from growin.queries import warning as queries

log = logging.getLogger(__name__)

PATIENCE, AFTER_TROUBLE = timedelta(hours=48), timedelta(minutes=15)
MOST_AT_ONCE = 200


def hold_against(
    club: Club, found: Iterable[Planned], looked_at: Iterable[int], members: Sequence[Membership]
) -> None:
    """Warn where a planned day has slipped, end warnings whose day stands no more, of rebuilds looked at."""
    slipped = {one.establishment.pk: one for one in found if one.slip.has_slipped}
    standing = {row.establishment_id: row for row in queries.standing(looked_at).order_by("pk")}
    for pk, row in standing.items():
        plan = slipped.get(pk)
        if plan is None or (plan.on, plan.basis) != (row.planned_on, row.basis):
            end(row, club)
    for pk, plan in slipped.items():
        row = standing.get(pk)
        same = row if row and (row.planned_on, row.basis) == (plan.on, plan.basis) else None
        warn(plan, same, club, members)


def warn(plan: Planned, row: EarlyWarning | None, club: Club, members: Sequence[Membership]) -> None:
    """Tell of a slip for the first time, at a mark before the day, or because it is worse."""
    today = club.local_today()
    before = Slip(row.planned_on, row.likely_on) if row else None
    if not worth_a_word(plan.slip, today, before, row.told_at_mark if row else None):
        return
    row = row or EarlyWarning(
        establishment=plan.establishment, planned_on=plan.on, basis=plan.basis, first=plan.first
    )
    row = _opened_again(row)
    row.likely_on, row.told_at_mark = plan.slip.likely, mark_of(plan.on, today)
    row.told, row.told_at = row.told + 1, timezone.now()
    row.acknowledged_at = row.acknowledged_by = None
    row.save()
    supersede(club=club, keys=row.keys)
    for number in range(1, max(row.steps.count(), 1) + 1):
        _tell(row, number, plan, club, members)
    _wait(row)


def _opened_again(row: EarlyWarning) -> EarlyWarning:
    """The warning of a day that stood before, ended, and stands again goes on where it was."""
    same = EarlyWarning.objects.filter(
        establishment=row.establishment, planned_on=row.planned_on, basis=row.basis
    ).first()
    if same is None:
        return row
    same.ended_at = None
    return same


def end(row: EarlyWarning, club: Club) -> None:
    """Its day stands no more, or the forecast is back before it: nobody is bothered further."""
    row.ended_at, row.next_at = timezone.now(), None
    row.save(update_fields=["ended_at", "next_at"])
    supersede(club=club, keys=row.keys)


def go_on() -> int:
    """Warnings that nobody acknowledged within 48 hours go on to the next of their chain; how many."""
    due = list(queries.to_go_on(timezone.now())[:MOST_AT_ONCE])
    return sum(_gone_on(row) for row in due)


def _gone_on(row: EarlyWarning) -> bool:
    """Whether it went on; one that breaks is tried again in a while, and holds up none of other clubs."""
    try:
        return _go_on(row)
    except Exception:
        log.exception("Warning %s could not go on", row.pk)
        mine = EarlyWarning.objects.filter(pk=row.pk, next_at=row.next_at)
        mine.update(next_at=timezone.now() + AFTER_TROUBLE)
        return False


@transaction.atomic
def _go_on(row: EarlyWarning) -> bool:
    """Claimed by a conditional update, so that each step is taken once."""
    if not EarlyWarning.objects.filter(pk=row.pk, next_at=row.next_at).update(next_at=None):
        return False
    word = queries.acknowledgement(row)
    if word:
        _acknowledged(row, word.to, word.seen_at)
        return False
    club = row.establishment.green.club
    with units.shown_in(club.units):
        plan = planned(
            Look(club, club.local_today(), frozenset([row.establishment.green_id])), row.establishment
        )
    if plan is None or not plan.slip.has_slipped or plan.on != row.planned_on:
        end(row, club)
        return False
    _tell(row, row.steps.count() + 1, plan, club, list(wishes.able(club)))
    _wait(row)
    return True


def _acknowledged(row: EarlyWarning, by: Membership | None, at: datetime) -> None:
    row.acknowledged_by, row.acknowledged_at, row.next_at = by, at, None
    row.save(update_fields=["acknowledged_by", "acknowledged_at", "next_at"])


def _wait(row: EarlyWarning) -> None:
    """So long for a word, while somebody is left to be told."""
    is_more = row.steps.count() < len(CHAINS[row.first])
    EarlyWarning.objects.filter(pk=row.pk).update(next_at=row.told_at + PATIENCE if is_more else None)


def _tell(row: EarlyWarning, number: int, plan: Planned, club: Club, members: Sequence[Membership]) -> None:
    """Tell those of one step, and record the step the first time; one with nobody to tell passes on."""
    chain = CHAINS[row.first]
    whom = chain[number - 1]
    told = (
        _tell_operators(row, plan, club) if OPERATORS in whom else _tell_roles(row, whom, plan, club, members)
    )
    _record(row, number, told, club)
    if not told and number < len(chain):
        _tell(row, number + 1, plan, club, members)


def _tell_roles(row: EarlyWarning, roles, plan: Planned, club: Club, members) -> list[str]:
    to = [one for role in roles for one in members if one.role == role]
    with units.shown_in(club.units):
        telling = telling_of(row, plan, club)
    tell_all(club=club, said=[(one, telling) for one in to])
    return [one.name for one in to]


def _tell_operators(row: EarlyWarning, plan: Planned, club: Club) -> list[str]:
    operators = list(people.operators())
    tell_operators(club=club, operators=operators, telling=telling_of(row, plan, club))
    return [one.name for one in operators]


def telling_of(row: EarlyWarning, plan: Planned, club: Club) -> Telling:
    """One notice for each time that the warning was told; each must be acknowledged."""
    green = plan.establishment.green
    return Telling(
        kind=NoticeKind.OPENING,
        key=f"{row.keys}{row.told}",
        subject=units.said(plan.subject),
        text=units.said(plan.text),
        place=Look(club, club.local_today()).page("readiness", green),
        green=green,
        presses=True,
        asks_word=True,
    )


def _record(row: EarlyWarning, number: int, told: list[str], club: Club) -> None:
    """The step, once, with those it reached; a line in the record of changes."""
    to = ", ".join(told) or "nobody: there is none to tell"
    _, is_new = RaisedStep.objects.get_or_create(warning=row, number=number, defaults={"to": to[:400]})
    if is_new:
        green = row.establishment.green
        deed = f"Warned against opening {green.name} on {day(row.planned_on)}: {to}"
        trail.write(club=club, by=None, deed=deed, row=row, green=green)
