"""The programme in force: its steps with what became of them, what is due, what an entry may answer."""

import re
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Min, OuterRef, Q, QuerySet, Subquery

from greens.models import Club, Establishment
from greens.queries import greens
from growin.agronomy.programme import GATE
from growin.models import AnswerKind, Programme, ProgrammeStep, StepAnswer

# Our judgement: a step is asked for from three days before its likely day and late three days after its
# latest; after two months nobody is asked any more. Work may answer a step ten days before its time and
# three weeks after.
LEAD, GRACE, ASKED_FOR = timedelta(days=3), timedelta(days=3), timedelta(days=60)
EARLY, LATE = timedelta(days=10), timedelta(days=21)

DONE, NOT_DONE, PUT_OFF = "done", "not done", "put off"
TO_COME, DUE, OVERDUE, UNANSWERED, BEFORE = (
    "to come",
    "due",
    "overdue",
    "not answered",
    "before the programme",
)
OPEN = frozenset({DUE, OVERDUE})
HAND = "hand-"


@dataclass(frozen=True)
class Standing:
    """A step as it stands on a day: with its answer, and its state as a word."""

    step: ProgrammeStep
    state: str
    answer: StepAnswer | None = None
    earlier_open: int = 0

    @property
    def establishment(self) -> Establishment:
        return self.step.programme.establishment

    @property
    def green(self):
        return self.establishment.green

    @property
    def is_open(self) -> bool:
        return self.state in OPEN

    @property
    def is_late(self) -> bool:
        return self.state == OVERDUE

    @property
    def may_be_answered(self) -> bool:
        """A gate is a day, not a piece of work; what came before the programme was asked of nobody."""
        return self.step.kind != GATE and not self.step.is_dropped


def versions(establishment: Establishment) -> QuerySet[Programme]:
    """Every version, newest first, without the bulk of its inputs."""
    return establishment.programmes.select_related("by").defer("inputs", "settings")


def current(establishment: Establishment) -> Programme | None:
    """The version in force: the newest."""
    return versions(establishment).first()


def steps_in_force(establishments: Iterable[Establishment]) -> QuerySet[ProgrammeStep]:
    """Steps of the newest version of each establishment, with their green; one query."""
    chain = Programme.objects.filter(establishment=OuterRef("programme__establishment"))
    first = chain.order_by().values("establishment").annotate(day=Min("issued_on")).values("day")
    return (
        ProgrammeStep.objects.filter(programme__establishment__in=establishments)
        .filter(programme=Subquery(chain.order_by("-number").values("pk")[:1]))
        .annotate(asked_from=Subquery(first))
        .select_related("programme__establishment__green__club")
        .defer("programme__inputs", "programme__settings", "programme__difference")
    )


def answers(establishments: Iterable[Establishment]) -> dict[tuple[int, str], StepAnswer]:
    """What became of steps, by establishment and key; an entry or reading taken back answers nothing."""
    rows = StepAnswer.objects.filter(
        Q(entry=None) | Q(entry__taken_back_at=None),
        Q(reading_set=None) | Q(reading_set__taken_back_at=None),
        establishment__in=establishments,
    )
    return {(row.establishment_id, row.key): row for row in rows.select_related("by", "entry", "reading_set")}


def steps_of(programme: Programme) -> QuerySet[ProgrammeStep]:
    """The steps of any version, as it was issued."""
    return programme.steps.all()


def steps(establishment: Establishment, on: date) -> list[Standing]:
    """The whole programme in force, dropped steps too, by likely day; two queries."""
    return standing(steps_in_force([establishment]), answers([establishment]), on)


def step(establishment: Establishment, key: str, on: date) -> Standing | None:
    """One step of the programme in force, as it stands among the others."""
    return next((one for one in steps(establishment, on) if one.step.key == key), None)


def due(club: Club, on: date) -> list[Standing]:
    """What is asked of the greenstaff on a day, on all greens of the club: late steps first; three queries.

    Of a round (walks, feeds, readings of one measure …) only the newest whose day has come is asked;
    of the heights only the highest that was not cut yet.
    """
    rebuilds = list(greens.current_establishments(club).values())
    begun = steps_in_force(rebuilds).filter(
        is_dropped=False, earliest__lte=on, likely__lte=on + LEAD, latest__gte=on - ASKED_FOR
    )
    asked = [one for one in standing(begun, answers(rebuilds), on) if one.is_open and one.may_be_answered]
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
    known = answers(rebuilds)
    open_steps = [one for one in near if _answer_state(known.get(_id(one)), on) in (None, DUE, PUT_OFF)]
    open_steps.sort(key=lambda one: abs((one.likely - on).days))
    return [Standing(one, DUE, known.get(_id(one))) for one in open_steps]


def standing(
    rows: Iterable[ProgrammeStep], known: dict[tuple[int, str], StepAnswer], on: date
) -> list[Standing]:
    """Steps with their states, those of one round or one ladder seen together."""
    rows = list(rows)
    states = {_id(row): _state(row, known.get(_id(row)), on) for row in rows}
    earlier: dict[tuple, int] = {}
    for chain in _chains(row for row in rows if not row.is_dropped):
        _settle(chain, states, earlier, on)
    return [Standing(row, states[_id(row)], known.get(_id(row)), earlier.get(_id(row), 0)) for row in rows]


def _id(row: ProgrammeStep) -> tuple[int, str]:
    return row.programme.establishment_id, row.key


def _state(row: ProgrammeStep, answer: StepAnswer | None, on: date) -> str:
    answered = _answer_state(answer, on)
    if answered:
        return answered
    if row.latest < row.asked_from:
        return BEFORE
    if on < max(row.earliest, row.likely - LEAD):
        return TO_COME
    return DUE if on <= row.latest + GRACE else OVERDUE


def _answer_state(answer: StepAnswer | None, on: date) -> str | None:
    if answer is None:
        return None
    if answer.kind == AnswerKind.PUT_OFF:
        return PUT_OFF if answer.until > on else DUE
    return DONE if answer.kind == AnswerKind.DONE else NOT_DONE


def series(row: ProgrammeStep) -> str:
    """The round that a step belongs to: "feed-03" → "feed", "walk-2026-W10" → "walk".

    Heights are one ladder, whoever set them; other steps by hand each stand alone.
    """
    if row.kind == "cut":
        return "cut"
    return row.key if row.key.startswith(HAND) else re.sub(r"-[-.\dW]+$", "", row.key)


def _chains(rows: Iterable[ProgrammeStep]) -> Iterable[list[ProgrammeStep]]:
    chains = defaultdict(list)
    for row in rows:
        chains[row.programme.establishment_id, series(row)].append(row)
    return chains.values()


def _settle(chain: Sequence[ProgrammeStep], states: dict, earlier: dict, on: date) -> None:
    """Ask for one step of a chain at a time: those before it were not answered, those after are to come."""
    asked = [row for row in chain if states[_id(row)] in OPEN]
    if not asked:
        return
    keep = _next_height(chain, states) if chain[0].kind == "cut" else _newest_round(asked, on)
    passed = asked[: asked.index(keep)] if keep else asked
    states.update({_id(row): UNANSWERED for row in passed})
    if keep:
        states.update({_id(row): TO_COME for row in asked[len(passed) + 1 :]})
        earlier[_id(keep)] = len(passed)


def _newest_round(asked: Sequence[ProgrammeStep], on: date) -> ProgrammeStep:
    return next((row for row in reversed(asked) if row.likely <= on), asked[0])


def _next_height(chain: Sequence[ProgrammeStep], states: dict) -> ProgrammeStep | None:
    """The first height still open below every height that was cut."""
    done = [n for n, row in enumerate(chain) if states[_id(row)] == DONE]
    below = chain[max(done) + 1 :] if done else chain
    return next((row for row in below if states[_id(row)] in OPEN), None)


def cuts_planned(establishment: Establishment) -> QuerySet[ProgrammeStep]:
    """The heights of the programme in force, highest first."""
    return steps_in_force([establishment]).filter(kind="cut", is_dropped=False).order_by("likely", "-amount")


def gates(establishment: Establishment) -> QuerySet[ProgrammeStep]:
    return steps_in_force([establishment]).filter(kind=GATE, is_dropped=False)


def kinds(establishment: Establishment) -> list[str]:
    """The kinds of step that the programme in force has."""
    return sorted(set(steps_in_force([establishment]).order_by().values_list("kind", flat=True)))
