"""Old against new: how far each step of a programme moves, and which change moves it.

The old drawing is turned into the new one cause by cause (weather measured, work done and
readings taken, the record, the settings). What a step moves at one cause is put down to it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from itertools import pairwise

from growin.agronomy.climate import Climate, DayClock
from growin.agronomy.programme import pace
from growin.agronomy.programme.done import Done
from growin.agronomy.programme.draw import likely_steps
from growin.agronomy.programme.facts import GreenFacts
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step

WEATHER, WORK, RECORD, SETTINGS = "weather", "work", "record", "settings"
#: The pace of the days to come is that of so many of them (our judgement).
DAYS_OF_PACE = 14
_DAY = timedelta(days=1)


@dataclass(frozen=True)
class Drawing:
    """Everything that one drawing of a programme hangs on."""

    facts: GreenFacts
    climate: Climate
    settings: Mapping[str, float]
    done: Done = field(default_factory=Done)

    @property
    def plan(self) -> Plan:
        """The plan on the likely course of the weather."""
        return Plan(self.facts, self.climate, self.settings, done=self.done)

    @property
    def steps(self) -> dict[str, Step]:
        """Its steps by key on the likely course of the weather."""
        return likely_steps(self.plan)


@dataclass(frozen=True)
class Share:
    """Days by which one cause moves a step; 0 where the step comes or goes by it."""

    cause: str
    days: int


def stages(old: Drawing, new: Drawing) -> list[tuple[str, dict[str, Step]]]:
    """The steps after each cause in turn, the old drawing first; a cause that changed nothing is left out."""
    changes = (
        (WEATHER, {"climate": new.climate}),
        (WORK, {"done": new.done}),
        (RECORD, {"facts": new.facts}),
        (SETTINGS, {"settings": new.settings}),
    )
    found, now = [("", old.steps)], old
    for cause, change in changes:
        then = replace(now, **change)
        if then != now:
            found.append((cause, then.steps))
        now = then
    return found


def shares(old: Drawing, new: Drawing) -> dict[str, tuple[Share, ...]]:
    """What moves, brings or takes each step, by its key; steps that stay are not named."""
    moved: dict[str, list[Share]] = {}
    for (_, before), (cause, after) in pairwise(stages(old, new)):
        for key in before.keys() | after.keys():
            days = _days_between(before.get(key), after.get(key))
            if days != 0:
                moved.setdefault(key, []).append(Share(cause, days or 0))
    return {key: tuple(sorted(some, key=lambda one: -abs(one.days))) for key, some in moved.items()}


def _days_between(before: Step | None, after: Step | None) -> int | None:
    """None where the step is there only once."""
    return (after.likely - before.likely).days if before and after else None


@dataclass(frozen=True)
class Warmth:
    """What the days measured since the last drawing were worth against what it had expected of them.

    ``measured`` days run ``gained`` in ``unit`` more (less, if negative), which is worth ``days`` of
    the days to come.
    """

    measured: int
    gained: float
    unit: str
    days: float


def warmth(old: Drawing, new: Drawing, on: date) -> Warmth:
    """By the clock of the green, over the days that only the new drawing has measured."""
    clock, unit = _clock(new)
    fresh = [
        day for day, mean in new.climate.daily.items()
        if new.facts.established_on <= day <= on and old.climate.daily.get(day) != mean
    ]  # fmt: skip
    gained = sum(new.climate.worth(clock, day) - old.climate.worth(clock, day) for day in fresh)
    ahead = new.climate.sum_between(clock, on, on + DAYS_OF_PACE * _DAY) / DAYS_OF_PACE
    return Warmth(len(fresh), gained, unit, gained / ahead if ahead else 0.0)


def _clock(drawing: Drawing) -> tuple[DayClock, str]:
    if drawing.facts.is_turf:
        return pace.root_clock(drawing.settings), "°C·days"
    return pace.seed_clock(drawing.settings), "growth days"


def furthest(old: Drawing, new: Drawing, on: date) -> int:
    """The most days, with their sign, that a step still to come moves between two drawings."""
    before, after = old.steps, new.steps
    moves = [
        (after[key].likely - step.likely).days
        for key, step in before.items()
        if key in after and max(step.likely, after[key].likely) >= on
    ]
    return max(moves, key=abs, default=0)
