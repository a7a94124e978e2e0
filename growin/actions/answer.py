"""What became of a step: done, not done and why, or put off; a later answer replaces an earlier one."""

from datetime import date, timedelta

from django.db import transaction

from greens.actions import trail
from greens.actions.people import NotPossible
from greens.models import Entry, Establishment, Membership, ReadingSet
from growin.agronomy import plain_words
from growin.models import AnswerKind, ProgrammeStep, StepAnswer
from growin.queries import programme as queries
from growin.queries.differs import differs_of

WEATHER = "weather"
LONGEST_PUT_OFF = timedelta(days=183)
BLANK = {"until": None, "reason": "", "entry": None, "reading_set": None, "differs": ""}


@transaction.atomic
def tick(
    *,
    establishment: Establishment,
    key: str,
    by: Membership,
    on: date,
    entry: Entry | None = None,
    reading_set: ReadingSet | None = None,
    differs: str = "",
) -> StepAnswer:
    """Done on that day; what was done differently is found from the entry unless it is given."""
    step = step_of(establishment, key)
    require_after_its_ground(establishment, step, on)
    said = differs or differs_of(step, on, entry)
    values = {"kind": AnswerKind.DONE, "entry": entry, "reading_set": reading_set, "differs": said[:300]}
    return answer(step=step, establishment=establishment, by=by, on=on, **values)


@transaction.atomic
def not_done(*, establishment: Establishment, key: str, by: Membership, on: date, reason: str) -> StepAnswer:
    """Not done, and why: an answer like any other."""
    if not reason.strip():
        raise NotPossible("Say why it was not done; the weather is reason enough.")
    step = step_of(establishment, key)
    return answer(
        step=step, establishment=establishment, by=by, on=on, kind=AnswerKind.NOT_DONE, reason=reason
    )


@transaction.atomic
def put_off(
    *,
    establishment: Establishment,
    key: str,
    by: Membership,
    on: date,
    until: date,
    reason: str = "",
    entry: Entry | None = None,
) -> StepAnswer:
    """Asked for again on the day ``until``."""
    if until <= on:
        raise NotPossible(f"{plain_words.day(until)} is not after {plain_words.day(on)}; choose a later day.")
    if until > on + LONGEST_PUT_OFF:
        raise NotPossible(
            f"{plain_words.dated(until)} is more than half a year away; not done, then, and why?"
        )
    step = step_of(establishment, key)
    values = {"kind": AnswerKind.PUT_OFF, "until": until, "reason": reason, "entry": entry}
    return answer(step=step, establishment=establishment, by=by, on=on, **values)


@transaction.atomic
def stopped_by_weather(
    *,
    establishment: Establishment,
    key: str,
    by: Membership,
    on: date,
    reason: str = WEATHER,
    entry: Entry | None = None,
    **tap,
) -> StepAnswer:
    """Not done that day for the weather: asked for again on the morrow. What is done stays done.

    ``tap`` says nothing that such an answer needs.
    """
    kept = queries.answers([establishment]).get((establishment.pk, key))
    if kept and kept.kind == AnswerKind.DONE:
        return kept
    where = {"establishment": establishment, "key": key, "by": by, "on": on}
    return put_off(**where, until=on + timedelta(days=1), reason=reason, entry=entry)


def require_after_its_ground(establishment: Establishment, step: ProgrammeStep, on: date) -> None:
    """A step for laid turf or sown seed was not done before there was any; none before the works."""
    laid, begun = establishment.established_on, establishment.works_started_on
    if on < begun:
        raise NotPossible(f"The works began on {plain_words.dated(begun)}; nothing was done before that day.")
    if laid and step.earliest >= laid > on:
        how = "laid" if establishment.is_turf else "sown"
        raise NotPossible(f"The green was {how} on {plain_words.dated(laid)}; this step comes after.")


def step_of(establishment: Establishment, key: str) -> ProgrammeStep:
    """The step in force; raises NotPossible for one the programme does not have or has dropped."""
    step = queries.steps_in_force([establishment]).filter(key=key, is_dropped=False).first()
    if step is None:
        raise NotPossible(f"The programme of {establishment.green} has no step “{key}” now.")
    return step


def answer(
    *, step: ProgrammeStep, establishment: Establishment, by: Membership, on: date, **values
) -> StepAnswer:
    """Write the one answer of a step, and a line in the record of changes."""
    before = StepAnswer.objects.filter(establishment=establishment, key=step.key).first()
    row, _ = StepAnswer.objects.update_or_create(
        establishment=establishment, key=step.key, defaults=BLANK | {"by": by, "on": on} | values
    )
    trail.write(
        club=establishment.green.club,
        by=by,
        deed=f"{row.get_kind_display()}: {step.what}",
        row=row,
        green=establishment.green,
        changes={"answer": [words(before), words(row)]},
    )
    return row


def words(row: StepAnswer | None) -> str | None:
    """An answer in one line: "Put off until Mon 20 April: frost"."""
    if row is None:
        return None
    until = f" until {plain_words.day(row.until)}" if row.until else ""
    said = row.reason or row.differs
    return f"{row.get_kind_display()} {plain_words.day(row.on)}{until}" + (f": {said}" if said else "")
