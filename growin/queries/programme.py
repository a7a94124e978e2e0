"""The programme in force: its steps with what became of them, what is due, what an entry may answer."""

from collections.abc import Iterable
from datetime import date, timedelta
from typing import NamedTuple

from django.db.models import F, OuterRef, Q, QuerySet, Subquery

from greens.models import Club, Establishment
from greens.queries import greens
from growin.agronomy.programme import GATE
from growin.models import AnswerKind, Programme, ProgrammeStep, StepAnswer
from growin.queries.remembered import kept_while_the_frame_stands
from growin.queries.standing import (
    ASKED_FOR,
    DUE,
    LEAD,
    OPEN,
    PUT_OFF,
    TO_COME,
    Standing,
    answer_state,
    id_of,
    standing,
)

# Our judgement: work may answer a step ten days before its time and three weeks after.
EARLY, LATE = timedelta(days=10), timedelta(days=21)
# So many steps are looked at for each one that is wanted: answered ones stand among them.
LOOKED_AT = 4


def versions(establishment: Establishment) -> QuerySet[Programme]:
    """Every version, newest first, without the bulk of its inputs."""
    return establishment.programmes.select_related("by").defer("inputs", "settings")


def current(establishment: Establishment) -> Programme | None:
    """The version in force: the newest."""
    return versions(establishment).first()


def version(establishment: Establishment, number: int) -> Programme | None:
    """One version by its number."""
    return versions(establishment).filter(number=number).first()


def key_of_club(club: Club, key: str) -> str:
    """The key of a step, as the door asks: raises ProgrammeStep.DoesNotExist where no programme has it."""
    keys = ProgrammeStep.objects.filter(programme__establishment__green__club=club).order_by()
    if not keys.filter(key=key).exists():
        raise ProgrammeStep.DoesNotExist
    return key


def of_any_version(establishment: Establishment, key: str) -> QuerySet[ProgrammeStep]:
    """A step as it stood in each version that had it."""
    return ProgrammeStep.objects.filter(programme__establishment=establishment, key=key)


def words_of(establishment: Establishment, key: str) -> str:
    """What a step asks for, in the newest version that has it; one query."""
    newest = of_any_version(establishment, key).order_by("-programme__number")
    return newest.values_list("what", flat=True).first() or key


def stands(establishment: Establishment, key: str) -> bool:
    """Whether the programme in force has the step and it was not dropped; one query."""
    return steps_in_force([establishment]).filter(key=key, is_dropped=False).exists()


def newest(establishments: Iterable[Establishment]) -> QuerySet:
    """The ids of the versions in force, looked up by the rebuilds, however many versions each has had."""
    chain = Programme.objects.filter(establishment=OuterRef("pk")).order_by("-number")
    rebuilds = Establishment.objects.filter(pk__in=[one.pk for one in establishments]).order_by()
    return rebuilds.values_list(Subquery(chain.values("pk")[:1]))


def steps_in_force(establishments: Iterable[Establishment]) -> QuerySet[ProgrammeStep]:
    """Steps of the newest version of each establishment, with their green; one query."""
    chain = Programme.objects.filter(establishment=OuterRef("programme__establishment"))
    first = chain.order_by("issued_on").values("issued_on")[:1]
    return (
        ProgrammeStep.objects.filter(programme__in=newest(establishments))
        .annotate(asked_from=Subquery(first))
        .select_related("programme__establishment__green__club")
        .defer("programme__inputs", "programme__settings", "programme__difference")
    )


def at_hand(near: QuerySet[ProgrammeStep], establishments: Iterable[Establishment]) -> list[ProgrammeStep]:
    """Steps with the establishments that the caller holds already, so that none is read again; one query."""
    known = {one.pk: one for one in establishments}
    rows = list(near.select_related(None).select_related("programme"))
    for row in rows:
        row.programme.establishment = known[row.programme.establishment_id]
    return rows


def answers(
    establishments: Iterable[Establishment], asked: Iterable[ProgrammeStep] | None = None
) -> dict[tuple[int, str], StepAnswer]:
    """What became of steps, of all or of those asked about, by establishment and key.

    An entry or reading that was taken back answers nothing.
    """
    rows = _counting().filter(establishment__in=establishments)
    if asked is not None:
        rows = rows.filter(key__in={step.key for step in asked})
    return {(row.establishment_id, row.key): row for row in rows.select_related("by", "entry", "reading_set")}


def still_to_do(club: Club, shown: Iterable[int]) -> list[ProgrammeStep]:
    """Steps of any version by their rows, one a green, without what was done since; two queries."""
    rows = ProgrammeStep.objects.filter(pk__in=shown, programme__establishment__green__club=club)
    steps = list(rows.select_related("programme__establishment__green__club").order_by("pk"))
    rebuilds = [one.programme.establishment for one in steps]
    done = {at for at, one in answers(rebuilds, steps).items() if one.kind == AnswerKind.DONE}
    waiting = (one for one in steps if (one.programme.establishment_id, one.key) not in done)
    return list({one.programme.establishment.green_id: one for one in waiting}.values())


def still_standing(steps: Iterable[ProgrammeStep]) -> list[tuple[Establishment, str]]:
    """Rebuild and key of those that the programme in force has; one query."""
    rebuilds = {one.programme.establishment_id: one.programme.establishment for one in steps}
    rows = steps_in_force(rebuilds.values()).filter(key__in={one.key for one in steps}, is_dropped=False)
    found = set(rows.values_list("programme__establishment", "key"))
    asked = [(one.programme.establishment_id, one.key) for one in steps]
    return [(rebuilds[rebuild], key) for rebuild, key in asked if (rebuild, key) in found]


class Settled(NamedTuple):
    """A step that is over: done, or not done."""

    establishment_id: int
    key: str
    kind: str
    on: date


def settled(
    establishments: Iterable[Establishment],
    asked: Iterable[ProgrammeStep] | None = None,
    answered: Q | None = None,
) -> list[Settled]:
    """Steps of these rebuilds that are over: all, those asked about, or those answered so; one query."""
    rows = _counting().filter(answered or Q(), establishment__in=establishments)
    rows = rows.exclude(kind=AnswerKind.PUT_OFF)
    if asked is not None:
        rows = rows.filter(key__in={step.key for step in asked})
    return [Settled(*row) for row in rows.values_list(*Settled._fields)]


def _counting() -> QuerySet[StepAnswer]:
    """Answers that stand: their entry or reading was not taken back."""
    return StepAnswer.objects.filter(
        Q(entry=None) | Q(entry__taken_back_at=None),
        Q(reading_set=None) | Q(reading_set__taken_back_at=None),
    )


def steps_of(programme: Programme) -> QuerySet[ProgrammeStep]:
    """The steps of any version, as it was issued."""
    return programme.steps.all()


def steps(establishment: Establishment, on: date) -> list[Standing]:
    """The whole programme in force, dropped steps too, by likely day; two queries."""
    rows = at_hand(steps_in_force([establishment]), [establishment])
    return standing(rows, answers([establishment], rows), on)


def next_steps(establishment: Establishment, on: date, count: int) -> list[Standing]:
    """The next steps of the programme in force that are due or to come, by likely day; two queries."""
    near = steps_in_force([establishment]).filter(is_dropped=False, latest__gte=on - ASKED_FOR)
    near = near.filter(latest__gte=F("asked_from"))
    over = _counting().filter(establishment=establishment).exclude(kind=AnswerKind.PUT_OFF)
    near = near.exclude(~Q(kind="cut"), key__in=over.values("key"))
    rows = at_hand(near[: count * LOOKED_AT], [establishment])
    found = standing(rows, answers([establishment], rows), on)
    return [one for one in found if one.state in OPEN | {TO_COME}][:count]


def coming(establishments: Iterable[Establishment], on: date, until: date) -> dict[int, list[Standing]]:
    """What is due or comes by a day on each of these rebuilds, by its id and likely day; two queries."""
    rebuilds = list(establishments)
    near = (
        steps_in_force(rebuilds)
        .filter(is_dropped=False, likely__lte=until, latest__gte=on - ASKED_FOR)
        .filter(latest__gte=F("asked_from"))
    )
    rows = at_hand(near, rebuilds)
    found: dict[int, list[Standing]] = {}
    for one in standing(rows, answers(rebuilds, rows), on):
        if one.state in OPEN | {TO_COME}:
            found.setdefault(one.establishment.pk, []).append(one)
    return found


def step(establishment: Establishment, key: str, on: date) -> Standing | None:
    """One step of the programme in force, as it stands among the others."""
    return next((one for one in steps(establishment, on) if one.step.key == key), None)


def due(club: Club, on: date) -> list[Standing]:
    """What is asked of the greenstaff on a day on all greens, late steps first; three queries."""
    return due_on(greens.current_establishments(club).values(), on)


def due_on(establishments: Iterable[Establishment], on: date) -> list[Standing]:
    """What is asked on these greens on a day, late steps first; two queries.

    Of a round (walks, feeds, readings of one measure …) only the newest whose day has come is asked;
    of the heights only the highest that was not cut yet.
    """
    rebuilds = list(establishments)
    begun = steps_in_force(rebuilds).filter(
        is_dropped=False, earliest__lte=on, likely__lte=on + LEAD, latest__gte=on - ASKED_FOR
    )
    rows = at_hand(begun, rebuilds)
    asked = [
        one for one in standing(rows, answers(rebuilds, rows), on) if one.is_open and one.may_be_answered
    ]
    return sorted(asked, key=lambda one: (not one.is_late, one.green.position, one.step.likely, one.step.key))


def matches(establishments: Iterable[Establishment], kind: str, on: date) -> list[Standing]:
    """Steps that work of this kind on that day may answer, nearest first; two queries."""
    rebuilds = list(establishments)
    near = steps_in_force(rebuilds).filter(
        kind=kind, is_dropped=False, earliest__lte=on + EARLY, latest__gte=on - LATE
    )
    return _unanswered(near, rebuilds, on)


def readings_due(establishments: Iterable[Establishment], measure: str, on: date) -> list[Standing]:
    """Readings due that a set of this measure on that day may answer, nearest first; two queries."""
    rebuilds = list(establishments)
    near = steps_in_force(rebuilds).filter(
        measure=measure, is_dropped=False, earliest__lte=on + EARLY, latest__gte=on - LATE
    )
    return _unanswered(near, rebuilds, on)


def _unanswered(near: QuerySet, rebuilds: list, on: date) -> list[Standing]:
    rows = at_hand(near, rebuilds)
    known = answers(rebuilds, rows)
    open_steps = [one for one in rows if answer_state(known.get(id_of(one)), on) in (None, DUE, PUT_OFF)]
    open_steps.sort(key=lambda one: abs((one.likely - on).days))
    return [Standing(one, DUE, known.get(id_of(one))) for one in open_steps]


def cuts_planned(establishment: Establishment) -> QuerySet[ProgrammeStep]:
    """The heights of the programme in force, highest first."""
    return steps_in_force([establishment]).filter(kind="cut", is_dropped=False).order_by("likely", "-amount")


def gates(establishment: Establishment) -> QuerySet[ProgrammeStep]:
    return steps_in_force([establishment]).filter(kind=GATE, is_dropped=False)


@kept_while_the_frame_stands
def kinds(establishment: Establishment) -> list[str]:
    """The kinds of step that the programme in force has."""
    return sorted(set(steps_in_force([establishment]).order_by().values_list("kind", flat=True)))
