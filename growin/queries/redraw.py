"""A new drawing against the programme in force: what moves, comes, falls away, stays by hand, and why."""

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from greens.models import Establishment
from greens.queries import settings as constants
from growin.agronomy.plain_words import counted
from growin.agronomy.programme import is_of_a_year
from growin.agronomy.programme.shift import (
    RECORD,
    SETTINGS,
    WEATHER,
    WORK,
    Drawing,
    Share,
    Warmth,
    warmth,
)
from growin.models import Programme, ProgrammeStep
from growin.queries import drawn, facts
from growin.queries.remembered import kept_while_unchanged
from growin.queries.since_drawn import Change, changed_facts, changed_settings, work_since, work_words

LONGEST_WHY = Programme._meta.get_field("why").max_length


@dataclass(frozen=True)
class Row:
    """One step, old against new; one of the two is missing for what is new or falls away."""

    before: ProgrammeStep | None
    after: ProgrammeStep | None
    reasons: tuple[str, ...] = ()
    drawn: Mapping | None = None

    @property
    def step(self) -> ProgrammeStep:
        return self.after or self.before

    @property
    def days(self) -> int:
        """Days later; negative is earlier."""
        return (self.after.likely - self.before.likely).days if self.before and self.after else 0

    @property
    def days_words(self) -> str:
        return days_words(self.days)

    @property
    def drawn_on(self) -> date | None:
        """Where the drawing would put a step that stays by hand."""
        return date.fromisoformat(self.drawn["likely"]) if self.drawn else None

    @property
    def is_amount_changed(self) -> bool:
        return bool(self.before and self.after) and self.before.planned != self.after.planned


def days_words(days: int) -> str:
    """ "6 days earlier"; "the same day"."""
    return f"{counted(abs(days), 'days')} {'later' if days > 0 else 'earlier'}" if days else "the same day"


@dataclass(frozen=True)
class Redraw:
    """Everything the page of a new drawing says; ``passed`` counts moved steps whose day is gone."""

    last: Programme
    on: date
    rows: tuple[Row, ...]
    passed: int
    warmth: Warmth | None
    work: tuple[str, ...]
    facts: tuple[Change, ...]
    settings: tuple[Change, ...]
    mark: str

    @cached_property
    def moved(self) -> list[Row]:
        """Steps that move or change their amount, by their new day."""
        both = [one for one in self.rows if one.before and one.after and not one.drawn]
        return [one for one in both if one.days or one.is_amount_changed]

    @property
    def new(self) -> list[Row]:
        return [one for one in self.rows if one.before is None]

    @property
    def gone(self) -> list[Row]:
        return [one for one in self.rows if one.after is None]

    @property
    def by_hand(self) -> list[Row]:
        """Steps that stay as the head greenkeeper set them, where the drawing would differ."""
        return [one for one in self.rows if one.drawn]

    @property
    def is_same(self) -> bool:
        return not (self.moved or self.new or self.gone)

    @property
    def counts(self) -> str:
        """ "12 steps move, 9 of them earlier; 2 are new; 1 falls away"."""
        earlier = sum(one.days < 0 for one in self.moved)
        change = "changes" if len(self.moved) == 1 else "change"
        sooner = f", {earlier} of them to an earlier day" if earlier else ""
        said = [
            self.moved and f"{counted(len(self.moved), 'steps')} {change}{sooner}",
            self.new and f"{len(self.new)} new",
            self.gone and f"{len(self.gone)} no longer drawn",
        ]
        return "; ".join(one for one in said if one) or "no step moves"

    @property
    def weather_words(self) -> str:
        """What the days measured since were worth; empty where none were."""
        if self.warmth is None or not self.warmth.measured:
            return ""
        told = self.warmth
        days, unit = abs(round(told.days)), told.unit
        said = f"{counted(told.measured, 'days')} measured since: {abs(told.gained):.0f} {unit}"
        if not days:
            return f"{counted(told.measured, 'days')} measured since, as warm as expected"
        return f"{said} {'more' if told.gained > 0 else 'less'} than expected, about " + (
            f"{counted(days, 'days')} {'ahead' if told.gained > 0 else 'behind'}"
        )

    @property
    def why(self) -> str:
        """The reasons in one line, as the new version keeps them."""
        record = [f"{one.words} {one.before} → {one.after}" for one in (*self.facts, *self.settings)]
        said = "; ".join(filter(None, [self.weather_words, *self.work, *record]))
        return said if len(said) <= LONGEST_WHY else said[: LONGEST_WHY - 1].rstrip() + "…"


@kept_while_unchanged
def of(establishment: Establishment, on: date) -> Redraw | None:
    """The drawing of a day against the version in force; None before the first, or without its facts.

    Raises
    ------
    ImpossibleValue
        For a record that cannot be drawn from.
    """
    last = establishment.programmes.first()
    if last is None or facts.missing(establishment):
        return None
    settings = constants.in_force(establishment.green.club, on, establishment.green)
    return redraw(establishment, on, settings, last)


def redraw(establishment: Establishment, on: date, settings: dict, last: Programme) -> Redraw:
    """A drawing under these settings against a version."""
    new, old = drawn.redrawn(establishment, on, settings, last), drawn.as_it_was(last)
    because = drawn.shares_of(old, new.drawing) if old else {}
    rows = list(_rows(list(last.steps.all()), new, because, old))
    return Redraw(
        last=last,
        on=on,
        rows=tuple(one for one in rows if not _is_past(one, on)),
        passed=sum(bool(one.days) and _is_past(one, on) for one in rows),
        warmth=warmth(old, new.drawing, on) if old else None,
        work=tuple(work_since(old.done, new.drawing.done)) if old else (),
        facts=tuple(changed_facts(old.facts, new.drawing.facts)) if old else (),
        settings=tuple(changed_settings(old.settings, settings)) if old else (),
        mark=mark_of(new.rows),
    )


def mark_of(rows: Iterable[ProgrammeStep]) -> str:
    """A short digest of days and amounts: what is accepted is what was shown."""
    plain = sorted((row.key, row.likely.isoformat(), row.amount) for row in rows)
    return hashlib.sha256(json.dumps(plain).encode()).hexdigest()[:16]


def _rows(before: Sequence[ProgrammeStep], new: drawn.Redrawn, because: Mapping, old: Drawing | None):
    held = {row.key: row for row in before if not row.is_dropped}
    for row in sorted(new.rows, key=lambda row: (row.likely, row.key)):
        if not row.is_dropped:
            was = held.pop(row.key, None)
            yield Row(was, row, _reasons(row, because, old, new.drawing), new.otherwise.get(row.key))
    for row in held.values():
        yield Row(row, None, _reasons(row, because, old, new.drawing))


def _is_past(row: Row, on: date) -> bool:
    """Whether a step is of no more concern: its days are gone, old and new."""
    return all(one.likely < on for one in (row.before, row.after) if one)


def _reasons(step: ProgrammeStep, because: Mapping, old: Drawing | None, new: Drawing) -> tuple[str, ...]:
    return tuple(_reason(share, step, old, new) for share in because.get(step.key, ()))


def _reason(share: Share, step: ProgrammeStep, old: Drawing, new: Drawing) -> str:
    """ "The weather: 6 days earlier"; of a step of the year that comes in by itself "the year to come"."""
    if share.cause == WORK and not share.days and new.done.opened_on and is_of_a_year(step.key):
        return "the year to come"
    words = {
        WEATHER: lambda: "the weather",
        WORK: lambda: work_words(step, old.done, new.done),
        RECORD: lambda: named(changed_facts(old.facts, new.facts)),
        SETTINGS: lambda: named(changed_settings(old.settings, new.settings)),
    }[share.cause]()
    return f"{words}: {days_words(share.days)}" if share.days else words


def named(changes: Iterable[Change]) -> str:
    """The first two things that were changed, the rest counted."""
    words = [f"{one.words[:1].lower()}{one.words[1:]}" for one in changes]
    more = f" and {len(words) - 2} more" if len(words) > 2 else ""
    return f"{', '.join(words[:2])}{more} changed"
