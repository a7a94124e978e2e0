"""Logging work together with the steps of the programme that it answers, in one go."""

from collections.abc import Iterable

from django.db import transaction

from greens.actions import diary
from greens.models import Entry, Establishment, Membership
from growin.actions import answer
from growin.models import StepAnswer

NOT_DONE = "not_done"
Step = tuple[Establishment, str]


@transaction.atomic
def log_work(*, by: Membership, answers: Iterable[Step] = (), **said) -> Entry:
    """Record work and tick the steps that somebody said it answers.

    Raises DetailError, Conflict and NotKept as :func:`greens.actions.diary.record_work`,
    NotPossible for a step that the programme does not have; nothing is kept then.
    """
    entry = diary.record_work(by=by, **said)
    for establishment, key in answers if counts_for_something(entry) else ():
        answer_step(entry=entry, establishment=establishment, key=key, by=by)
    return entry


def counts_for_something(entry: Entry) -> bool:
    """Whether it may answer a plan: a feed or a dressing that names no product brings nothing."""
    return not entry.work.takes_product or entry.kind == NOT_DONE or bool(entry.products.all())


def answer_step(*, entry: Entry, establishment: Establishment, key: str, by: Membership) -> None:
    """Tick a step by an entry, once; "not done" has it asked for again on the morrow."""
    if StepAnswer.objects.filter(establishment=establishment, key=key, entry=entry).exists():
        return
    where = {"establishment": establishment, "key": key, "by": by, "on": entry.on}
    if entry.kind == NOT_DONE:
        answer.stopped_by_weather(**where, reason=why_not(entry), entry=entry)
    else:
        answer.tick(**where, entry=entry)


def why_not(entry: Entry) -> str:
    """The weather in words: "weather: frost"."""
    reasons = [value for words, value in entry.facts if words == "Because of"]
    return ": ".join(["weather", *reasons])
