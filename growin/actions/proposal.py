"""Proposing a day for opening, withdrawing it, and settling it by a decision."""

from datetime import date, timedelta

from django.db import transaction

from greens.actions import trail
from greens.models import Establishment, Membership
from growin.actions.forecast import refreshed
from growin.agronomy.fields import DetailError
from growin.agronomy.plain_words import dated, day
from growin.evidence import judged
from growin.evidence.chance import chance_by
from growin.models import Decision, Pattern, Proposal
from growin.queries import proposal as proposals

LATEST = timedelta(days=366)
LONGEST_WHY = 300
PASSED = "Its day passed without a decision."


@transaction.atomic
def propose(*, establishment: Establishment, by: Membership, opening_on: date, pattern: str) -> Proposal:
    """A day for opening, with the verdict and the chance as they stand; from now on the criteria are frozen.

    Raises
    ------
    DetailError
        With one sentence for everything that cannot be.
    """
    Establishment.objects.select_for_update().get(pk=establishment.pk)
    today = establishment.green.club.local_today()
    standing = proposals.open_of(establishment, today)
    errors = _wrong(establishment, today, opening_on, pattern, standing)
    if errors:
        raise DetailError(errors)
    lapse(establishment, today)
    refreshed(establishment, today)
    row = Proposal.objects.create(
        establishment=establishment,
        opening_on=opening_on,
        pattern=pattern,
        made_on=today,
        by=by,
        verdict=judged(establishment, today).verdict.state,
        chance=chance_by(establishment, opening_on).chance,
    )
    changes = trail.as_created({"opening on": opening_on, "pattern": pattern, "chance": row.chance})
    write(row, by, f"Proposed: {row.get_pattern_display().lower()} from {day(opening_on)}", changes)
    return row


def _wrong(establishment, today: date, opening_on: date, pattern: str, standing: Proposal | None) -> dict:
    wrong, laid = {}, establishment.established_on
    if pattern not in Pattern.values or pattern == Pattern.CLOSED:
        wrong["pattern"] = "A proposal is for opening: choose one of the patterns of play listed."
    if laid is None:
        wrong["opening_on"] = "The green must be laid or sown before a day can be proposed."
    elif opening_on < laid:
        wrong["opening_on"] = f"{dated(opening_on)} lies before {dated(laid)}, when it was laid or sown."
    elif opening_on < today:
        wrong["opening_on"] = f"{day(opening_on)} {opening_on.year} has gone by; propose a day to come."
    elif opening_on > today + LATEST:
        wrong["opening_on"] = (
            f"{day(opening_on)} {opening_on.year} is more than a year away; propose nearer to it."
        )
    if standing:
        wrong[""] = f"{day(standing.opening_on)} is proposed already; decide on it or withdraw it first."
    return wrong


@transaction.atomic
def withdraw(*, proposal: Proposal, by: Membership, why: str = "") -> Proposal:
    """Withdrawn today; the club's constants of today count again.

    Raises
    ------
    DetailError
        When it is not open any more, or the reason is too long.
    """
    today = by.club.local_today()
    row = Proposal.objects.select_for_update().get(pk=proposal.pk)
    if not row.is_open(today):
        raise DetailError({"": "This proposal is not open any more; there is nothing to withdraw."})
    if len(why) > LONGEST_WHY:
        raise DetailError({"why": f"This has {len(why)} letters; at most {LONGEST_WHY} fit."})
    end(row, by, today, why.strip())
    write(row, by, f"Withdrew the proposal of {day(row.opening_on)}", {"why": [None, row.ended_why]})
    return row


def settle(establishment: Establishment, by: Membership, decision: Decision) -> None:
    """The decision ends the proposal that stood open."""
    standing = proposals.open_of(establishment, decision.made_on)
    if standing:
        end(standing, by, decision.made_on, decision=decision)


def lapse(establishment: Establishment, today: date) -> None:
    """What was never decided or withdrawn ended on the morrow of its day."""
    for row in establishment.proposals.filter(ended_on=None, opening_on__lt=today):
        end(row, None, row.opening_on + timedelta(days=1), PASSED)


def end(
    row: Proposal, by: Membership | None, on: date, why: str = "", decision: Decision | None = None
) -> None:
    row.ended_by, row.ended_on, row.ended_why, row.decision = by, on, why, decision
    row.save(update_fields=["ended_by", "ended_on", "ended_why", "decision"])


def write(row: Proposal, by: Membership, deed: str, changes: dict) -> None:
    green = row.establishment.green
    trail.write(club=green.club, by=by, deed=deed, row=row, green=green, changes=changes)
