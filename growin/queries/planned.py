"""What the programmes in force plan of one unit, all of it and what is not answered yet."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from greens.models import Establishment
from growin.queries import programme
from growin.queries.standing import id_of

Amounts = dict[int, list[tuple[date, float]]]
#: A step long past its day adds nothing any more (our judgement).
LATE = timedelta(days=14)


@dataclass(frozen=True)
class Planned:
    """(likely day, amount) of each step by the rebuild's id: ``all`` of them, and the ``rest`` to come."""

    all: Amounts = field(default_factory=dict)
    rest: Amounts = field(default_factory=dict)


def to_come(rest: Iterable[tuple[date, float]], on: date, last: date) -> float:
    """What steps that are not answered will add by a last day."""
    return sum(amount for day, amount in rest if on - LATE <= day <= last)


def planned(establishments: Iterable[Establishment], unit: str | None) -> Planned:
    """Steps whose amount is in a unit; two queries, none without a unit."""
    rebuilds: Sequence[Establishment] = list(establishments)
    found = Planned()
    if unit is None:
        return found
    steps = programme.steps_in_force(rebuilds).filter(is_dropped=False, unit=unit, amount__isnull=False)
    rows = programme.at_hand(steps, rebuilds)
    over = {(one.establishment_id, one.key) for one in programme.settled(rebuilds, rows)}
    for step in rows:
        pk, one = step.programme.establishment_id, (step.likely, step.amount)
        found.all.setdefault(pk, []).append(one)
        if id_of(step) not in over:
            found.rest.setdefault(pk, []).append(one)
    return found
