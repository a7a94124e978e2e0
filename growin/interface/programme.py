"""The programme in force of a green as programs read it."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Annotated

from django.http import Http404

from greens.models import Club, Establishment, Green
from greens.queries import greens
from growin.models import AnswerKind
from growin.queries import programme as queries
from growin.queries.standing import Standing


@dataclass(frozen=True)
class Step:
    """A dated step. Its key stays the same through all versions of the programme."""

    key: str
    kind: str
    what: str
    earliest: date
    likely: date
    latest: date
    amount: Annotated[float | None, "In the unit beside it."]
    unit: Annotated[str, "Such as “kg N/ha”; empty where there is no amount."]
    how: str
    why: str
    source: str
    mark: Annotated[str, "How far the figure is to be trusted, such as common practice."]
    once: Annotated[str, "What must hold before it; empty where nothing must."]
    measure: Annotated[str, "The measure that it asks to be read; empty for other steps."]
    by_hand: bool
    state: Annotated[str, "Such as to come, due, overdue, done, put off."]
    put_off_until: date | None


@dataclass(frozen=True)
class Programme:
    """The version in force: the newest. Steps that were dropped are left out."""

    green_id: int
    rebuild_id: int
    number: int
    issued_on: date
    issued_at: datetime
    steps: list[Step]


def newest_rebuild(club: Club, green: Green) -> Establishment:
    """With its green and club at hand; raises Http404 where the green was never rebuilt."""
    row = greens.current_establishment(green)
    if row is None:
        raise Http404(f"No rebuild of {green} is on record.")
    row.green, green.club = green, club
    return row


def programme_of(club: Club, green: Green) -> Programme:
    rebuild = newest_rebuild(club, green)
    row = queries.current(rebuild)
    if row is None:
        raise Http404(f"No programme of {green} has been drawn.")
    steps = queries.steps(rebuild, club.local_today())
    return Programme(
        green_id=green.pk,
        rebuild_id=rebuild.pk,
        number=row.number,
        issued_on=row.issued_on,
        issued_at=row.issued_at,
        steps=[step(one) for one in steps if not one.step.is_dropped],
    )


def step(one: Standing) -> Step:
    row, answer = one.step, one.answer
    return Step(
        key=row.key,
        kind=row.kind,
        what=row.what,
        earliest=row.earliest,
        likely=row.likely,
        latest=row.latest,
        amount=row.amount,
        unit=row.unit,
        how=row.how,
        why=row.why,
        source=row.source,
        mark=row.mark,
        once=row.gate,
        measure=row.measure,
        by_hand=row.by_hand,
        state=one.state,
        put_off_until=answer.until if answer and answer.kind == AnswerKind.PUT_OFF else None,
    )
