"""How a step stands on a day: its state as a word, and which of a round or a ladder is asked for."""

import re
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from greens.models import Establishment
from growin.agronomy.programme import GATE
from growin.models import AnswerKind, ProgrammeStep, StepAnswer

# Our judgement: a step is asked for from three days before its likely day, late three days after its
# latest, and asked for no more after two months.
LEAD, GRACE, ASKED_FOR = timedelta(days=3), timedelta(days=3), timedelta(days=60)

DONE, NOT_DONE, PUT_OFF, PASSED = "done", "not done", "put off", "passed"
TO_COME, DUE, OVERDUE, UNANSWERED, BEFORE = (
    "to come",
    "due",
    "overdue",
    "not answered",
    "before the programme",
)
OPEN = frozenset({DUE, OVERDUE})
OVER = frozenset({DONE, NOT_DONE, PASSED, UNANSWERED, BEFORE})
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
    def is_over(self) -> bool:
        """Done, left or gone by: how and why it was asked stands on its own page."""
        return self.state in OVER

    @property
    def is_late(self) -> bool:
        return self.state == OVERDUE

    @property
    def may_be_answered(self) -> bool:
        """A gate is a day, not a piece of work; what came before the programme was asked of nobody."""
        return self.step.kind != GATE and not self.step.is_dropped


def standing(
    rows: Iterable[ProgrammeStep], known: dict[tuple[int, str], StepAnswer], on: date
) -> list[Standing]:
    """Steps with their states, those of one round or one ladder seen together."""
    rows = list(rows)
    states = {id_of(row): _state(row, known.get(id_of(row)), on) for row in rows}
    earlier: dict[tuple, int] = {}
    for chain in _chains(row for row in rows if not row.is_dropped):
        _settle(chain, states, earlier, on)
    return [
        Standing(row, states[id_of(row)], known.get(id_of(row)), earlier.get(id_of(row), 0)) for row in rows
    ]


def id_of(row: ProgrammeStep) -> tuple[int, str]:
    return row.programme.establishment_id, row.key


def _state(row: ProgrammeStep, answer: StepAnswer | None, on: date) -> str:
    answered = answer_state(answer, on)
    if answered:
        return answered
    if row.kind == GATE and on >= row.likely:
        return PASSED
    if row.latest < row.asked_from:
        return BEFORE
    if on < max(row.earliest, row.likely - LEAD):
        return TO_COME
    return _asked(row.latest, on)


def _asked(latest: date, on: date) -> str:
    if on > latest + ASKED_FOR:
        return UNANSWERED
    return DUE if on <= latest + GRACE else OVERDUE


def answer_state(answer: StepAnswer | None, on: date) -> str | None:
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
    put_off = [n for n, row in enumerate(chain) if states[id_of(row)] == PUT_OFF]
    if put_off:
        _wait(chain[: put_off[-1]], chain[put_off[0] :], states)
    asked = [row for row in chain if states[id_of(row)] in OPEN]
    if not asked:
        return
    keep = _next_height(chain, states) if chain[0].kind == "cut" else _newest_round(asked, on)
    passed = asked[: asked.index(keep)] if keep else asked
    states.update({id_of(row): UNANSWERED for row in passed})
    if keep:
        states.update({id_of(row): TO_COME for row in asked[len(passed) + 1 :]})
        earlier[id_of(keep)] = len(passed)


def _wait(before: Sequence[ProgrammeStep], after: Sequence[ProgrammeStep], states: dict) -> None:
    """While one is put off, none of its chain stands in for it: neither an older one nor the next."""
    states.update({id_of(row): TO_COME for row in after if states[id_of(row)] in OPEN})
    states.update({id_of(row): UNANSWERED for row in before if states[id_of(row)] in OPEN})


def _newest_round(asked: Sequence[ProgrammeStep], on: date) -> ProgrammeStep:
    return next((row for row in reversed(asked) if row.likely <= on), asked[0])


def _next_height(chain: Sequence[ProgrammeStep], states: dict) -> ProgrammeStep | None:
    """The first height still open below every height that was cut."""
    done = [n for n, row in enumerate(chain) if states[id_of(row)] == DONE]
    below = chain[max(done) + 1 :] if done else chain
    return next((row for row in below if states[id_of(row)] in OPEN), None)
