"""Taking readings with what hangs on them: photographs, and the steps they answer."""

from collections.abc import Sequence

from django.db import transaction

from greens.actions import file as files
from greens.actions import readings
from greens.actions.people import NotPossible
from greens.choices import FileKind
from greens.models import Green, Membership, ReadingSet
from greens.validators.upload import NotKept
from growin.actions import answer
from growin.agronomy.fields import DetailError
from growin.evidence.due import steps_answered
from growin.models import StepAnswer


@transaction.atomic
def take_readings(
    *, green: Green, by: Membership, measure: str, photographs: Sequence = (), answers: str = "", **given
) -> ReadingSet:
    """Keep a set with its photographs, or nothing of it; ``answers`` is the step it was taken for.

    Raises
    ------
    DetailError
        With one sentence for everything that cannot be kept.
    """
    row = readings.record_readings(green=green, by=by, measure=measure, **given)
    store(row, by, photographs)
    if answers in {one.step.key for one in steps_answered(row)}:
        tick_step(reading_set=row, by=by, key=answers)
    return row


@transaction.atomic
def correct_readings(
    *, reading_set: ReadingSet, by: Membership, photographs: Sequence = (), **given
) -> ReadingSet:
    """Keep a correction and any photographs added with it."""
    row = readings.correct_readings(reading_set=reading_set, by=by, **given)
    store(row, by, photographs)
    return row


def store(row: ReadingSet, by: Membership, photographs: Sequence) -> None:
    """Photographs of a set; those of a set that had arrived before are stored once."""
    if row.files.exists() and photographs:
        known = set(row.files.values_list("name", flat=True))
        photographs = [one for one in photographs if one.name not in known]
    for one in photographs:
        try:
            files.store_file(
                club=row.club,
                by=by,
                upload=one,
                kind=FileKind.PHOTOGRAPH,
                green=row.green,
                reading_set=row,
                taken_on=row.on,
            )
        except NotKept as refused:
            raise DetailError({"photographs": str(refused)}) from None


def tick_step(*, reading_set: ReadingSet, by: Membership, key: str) -> StepAnswer:
    """Tick the step of the programme that this set answers.

    Raises NotPossible for a set taken back, one of no rebuild, or a step that asks for no such reading.
    """
    if reading_set.taken_back_at or reading_set.establishment is None:
        raise NotPossible("This set answers no step: it was taken back, or belongs to no rebuild.")
    key = key.replace("\x00", "")
    step = answer.step_of(reading_set.establishment, key)
    if step.measure != reading_set.measure:
        raise NotPossible(f"“{step.what}” asks for another reading; this set does not answer it.")
    return answer.tick(
        establishment=reading_set.establishment, key=key, by=by, on=reading_set.on, reading_set=reading_set
    )
