"""Drawing a programme and changing it by hand: every change is a new version, none is ever altered."""

from collections.abc import Iterable
from datetime import date, timedelta

from django.db import transaction

from greens.actions import trail
from greens.actions.people import NotPossible
from greens.models import Establishment, Membership
from greens.queries import settings as constants
from growin.actions.version import by_hand, free_key, hold, keep, steps_of
from growin.agronomy import plain_words
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.works import WORKS
from growin.models import Programme, ProgrammeStep
from growin.queries import doubts, drawn, facts
from growin.queries.drawn import as_drawn, copied

BY_HAND = "by hand"
LONGEST_AHEAD = timedelta(days=3 * 366)
LONGEST_WHY = Programme._meta.get_field("why").max_length


class Doubtful(NotPossible):
    """A plan that asks: it is kept once it is said that it is meant. ``sentences`` say why."""

    def __init__(self, sentences: Iterable[str]):
        self.sentences = tuple(sentences)
        super().__init__(" ".join(self.sentences))


@transaction.atomic
def issue_programme(*, establishment: Establishment, by: Membership, on: date, why: str = "") -> Programme:
    """The next version, drawn from the record as it is.

    Steps by hand stay, dropped ones stay dropped, answered ones stay as they were answered.
    Raises NotPossible, saying what to enter, while the record lacks area, day or normals.
    """
    last = hold(establishment)
    settings = constants.in_force(establishment.green.club, on, establishment.green)
    new = redrawn(establishment, on, settings, last)
    return keep(
        establishment=establishment,
        by=by,
        on=on,
        why=why[:LONGEST_WHY],
        last=last,
        rows=new.rows,
        drawn=new.otherwise,
        inputs=drawn.as_inputs(new.drawing),
        settings=settings,
        deed="Drew the programme",
    )


@transaction.atomic
def keep_programme(*, establishment: Establishment, by: Membership, on: date) -> Programme:
    """The new drawing was looked at, and the version in force is kept; nobody is asked again for a while."""
    last = hold(establishment)
    if last is None:
        raise NotPossible("There is no programme yet that could be kept.")
    green = establishment.green
    deed = f"Kept programme {last.number} against a new drawing"
    trail.save_changes(row=last, values={"kept_on": on}, club=green.club, by=by, deed=deed, green=green)
    return last


def redrawn(establishment: Establishment, on: date, settings: dict, last: Programme | None) -> drawn.Redrawn:
    """The next version as it would be; raises NotPossible for a record that cannot be drawn from."""
    wanting = facts.missing(establishment)
    if wanting:
        raise NotPossible(" ".join(wanting))
    try:
        return drawn.redrawn(establishment, on, settings, last)
    except ImpossibleValue as impossible:
        raise NotPossible(str(impossible)) from None


@transaction.atomic
def change_step(
    *,
    establishment: Establishment,
    key: str,
    by: Membership,
    on: date,
    why: str = "",
    is_meant: bool = False,
    **values,
) -> Programme:
    """Move or change a step by hand: ``likely``, ``amount``, ``what`` or ``how``.

    The window moves with the day. Raises Doubtful until ``is_meant``, NotPossible for what cannot be.
    """
    last, rows, step = taken(establishment, key)
    if step.is_dropped:
        raise NotPossible("This step was dropped; take it up again first.")
    changes = {
        name: [trail.plain(getattr(step, name)), trail.plain(new)]
        for name, new in values.items()
        if getattr(step, name) != new
    }
    if not changes:
        return last
    drawn = {} if step.by_hand else {key: as_drawn(step)}
    moved(step, values)
    judge(establishment, step, on, is_meant)
    marked(step, by, why)
    said = {"deed": f"Changed by hand: {step.what}", "changes": changes, "drawn": drawn}
    return by_hand(establishment=establishment, by=by, on=on, why=why, last=last, rows=rows, **said)


@transaction.atomic
def add_step(
    *,
    establishment: Establishment,
    by: Membership,
    on: date,
    kind: str,
    likely: date,
    what: str,
    amount: float | None = None,
    unit: str = "",
    how: str = "",
    why: str = "",
    is_meant: bool = False,
) -> Programme:
    """A step of the head greenkeeper's own. Raises as :func:`change_step`."""
    last = hold(establishment)
    rows = [copied(row) for row in steps_of(last)]
    step = ProgrammeStep(
        key=free_key(rows), kind=kind, earliest=likely, likely=likely, latest=likely,
        amount=amount, unit=unit, what=what, how=how, why=why,
    )  # fmt: skip
    judge(establishment, step, on, is_meant)
    marked(step, by, why)
    said = {
        "deed": f"Added by hand: {what}",
        "changes": trail.as_created({"likely": likely, "amount": amount}),
    }
    return by_hand(establishment=establishment, by=by, on=on, why=why, last=last, rows=[*rows, step], **said)


def drop_step(
    *, establishment: Establishment, key: str, by: Membership, on: date, why: str = ""
) -> Programme:
    """Take a step out; it stays out when the programme is drawn again."""
    return put_aside(establishment, key, by, on, why, is_dropped=True, deed="Dropped")


def restore_step(
    *, establishment: Establishment, key: str, by: Membership, on: date, why: str = ""
) -> Programme:
    """Take a dropped step up again."""
    return put_aside(establishment, key, by, on, why, is_dropped=False, deed="Took up again")


@transaction.atomic
def put_aside(establishment, key: str, by: Membership, on: date, why: str, *, is_dropped: bool, deed: str):
    last, rows, step = taken(establishment, key)
    if step.is_dropped == is_dropped:
        return last
    step.is_dropped = is_dropped
    step.by_hand = True
    said = {"deed": f"{deed}: {step.what}", "changes": {"dropped": [not is_dropped, is_dropped]}}
    return by_hand(establishment=establishment, by=by, on=on, why=why, last=last, rows=rows, **said)


def taken(establishment: Establishment, key: str):
    """The version in force, copies of its steps, and the one with that key."""
    last = hold(establishment)
    rows = [copied(row) for row in steps_of(last)]
    step = next((row for row in rows if row.key == key), None)
    if step is None:
        raise NotPossible(f"The programme of {establishment.green} has no step “{key}” now.")
    return last, rows, step


def moved(step: ProgrammeStep, values: dict) -> None:
    """Set values; the earliest and latest day move with the likely one."""
    shift = values.get("likely", step.likely) - step.likely
    step.earliest, step.latest = step.earliest + shift, step.latest + shift
    for name, value in values.items():
        setattr(step, name, value)


def judge(establishment: Establishment, step: ProgrammeStep, on: date, is_meant: bool) -> None:
    if step.likely < establishment.works_started_on:
        began = plain_words.day(establishment.works_started_on)
        raise NotPossible(f"The works began on {began}; no step can lie before that day.")
    if step.likely > on + LONGEST_AHEAD:
        raise NotPossible(
            f"{plain_words.dated(step.likely)} is more than three years away; plan nearer to it."
        )
    laid = establishment.established_on
    if laid and step.likely < laid and getattr(WORKS.get(step.kind), "needs_turf", False):
        raise NotPossible(f"Nothing grew before {plain_words.dated(laid)}; {step.what[:60]} comes after.")
    settings = constants.in_force(establishment.green.club, on, establishment.green)
    refusal = doubts.refusal(step.kind, step.amount, step.unit, settings)
    if refusal:
        raise NotPossible(refusal)
    plan = {"kind": step.kind, "amount": step.amount, "unit": step.unit, "on": step.likely, "key": step.key}
    said = doubts.doubts(establishment, **plan, settings=settings)
    if said and not is_meant:
        raise Doubtful(said)


def marked(step: ProgrammeStep, by: Membership, why: str) -> None:
    step.by_hand, step.mark, step.source = True, BY_HAND, by.name
    step.why = why or step.why
