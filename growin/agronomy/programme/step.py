"""A dated step of a programme: what, how much, why, on whose word."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

READING, INSPECTION, GATE = "reading", "inspection", "gate"
STEP_ONLY_KINDS = {READING: "reading due", INSPECTION: "inspection", GATE: "earliest day"}


@dataclass(frozen=True)
class Step:
    """One step.

    Attributes
    ----------
    key : str
        Stable through all versions of a programme ("feed-03", "cut-ladder-7.0", "walk-2026-W10").
    kind : str
        A kind of work (:mod:`growin.agronomy.works`), or "reading", "inspection", "gate".
    earliest, likely, latest : date
        On weather a little warmer than, as, and a little colder than the normals.
    amount : float or None
        With ``unit``; None where the trade names no amount.
    what, how, why : str
        One sentence each, as said on the green.
    source, mark : str
        Whose word it is, and how far it stands (:mod:`growin.agronomy.defaults`).
    cautions : tuple of str
        Keys of :mod:`growin.agronomy.cautions`.
    gate : str
        What must be true on the day before the step is done; empty when nothing.
    measure : str
        The measure that a reading due takes; empty on other steps.
    n_kg_ha, depth_mm, height_mm : float or None
        Nitrogen, depth of sand or bench height of this step, for sums.
    by_hand : bool
        Set or moved by the head greenkeeper: it survives a new plan.
    """

    key: str
    kind: str
    earliest: date
    likely: date
    latest: date
    amount: float | None = None
    unit: str = ""
    what: str = ""
    how: str = ""
    why: str = ""
    source: str = ""
    mark: str = ""
    cautions: tuple[str, ...] = ()
    gate: str = ""
    measure: str = ""
    n_kg_ha: float | None = None
    depth_mm: float | None = None
    height_mm: float | None = None
    by_hand: bool = False

    def __post_init__(self):
        if not self.earliest <= self.likely <= self.latest:
            raise ValueError(f"{self.key}: {self.earliest}, {self.likely}, {self.latest} are out of order")


def step_on(day: date, key: str, kind: str, **said) -> Step:
    """A step on one day: earliest, likely and latest alike."""
    return Step(key=key, kind=kind, earliest=day, likely=day, latest=day, **said)


def in_order(steps: Iterable[Step]) -> tuple[Step, ...]:
    """Steps by likely day, then by key."""
    return tuple(sorted(steps, key=lambda step: (step.likely, step.key)))


def spanned(step: Step, others: Iterable[Step]) -> Step:
    """The same step, its window widened to hold the same step as drawn on other weather."""
    same = [step, *others]
    return replace(
        step,
        earliest=min(one.earliest for one in same),
        latest=max(one.latest for one in same),
    )
