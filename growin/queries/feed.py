"""What stands in a member's calendar: days of the programme and of play that are due or to come.

Which kinds, the member's role says, as for what members are told; greens that they left out stay out.
What is done, dropped or put right is no longer there: that is how a calendar one subscribes to loses it.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from functools import cached_property

from django.db.models import F

from greens.choices import NoticeKind
from greens.models import Club, Defect, Establishment, Membership
from greens.models.wish import PACES
from greens.queries import greens, record, trail
from greens.queries import wish as wishes
from growin.agronomy.in_play import Recheck
from growin.agronomy.programme import OPENING_KEY, READING
from growin.models import AnswerKind, Decision, Pattern, Proposal, StepAnswer
from growin.queries import decision as decisions
from growin.queries import programme
from growin.queries import proposal as proposals
from growin.queries.decision import PlayState, stands
from growin.queries.recheck import all_looks
from growin.queries.standing import ASKED_FOR, OPEN, PUT_OFF, TO_COME, Standing, standing
from growin.queries.today import RECHECK, waits_for_opening

#: A step may be put off for half a year; so far back its days are looked at.
LOOKED_AT = ASKED_FOR + timedelta(days=183)


@dataclass(frozen=True)
class Dated:
    """Something with a day of its own, how often it has changed, and when it last did."""

    row: Standing | Recheck | Defect | Proposal | Decision
    rebuild: Establishment
    on: date
    changes: int
    changed_at: datetime


@dataclass(frozen=True)
class Ahead:
    """What lies ahead of a member on a day, in a fixed number of queries whatever the number of greens."""

    member: Membership
    today: date

    def __iter__(self) -> Iterator[Dated]:
        asked = {
            NoticeKind.OPENING: self.openings,
            NoticeKind.RECHECK: self.looks,
            NoticeKind.DEFECT: self.defects,
        }
        told = PACES[self.member.role]
        yield from (one for kind, ask in asked.items() if kind in told for one in ask())
        if NoticeKind.STEPS in told or NoticeKind.READINGS in told:
            yield from self.steps(NoticeKind.STEPS in told, NoticeKind.READINGS in told)

    @cached_property
    def rebuilds(self) -> dict[int, Establishment]:
        """The newest rebuild of each green that the member did not leave out, by its id."""
        out = wishes.left_out(wishes.of(self.member))
        rows = greens.current_establishments(self.member.club)
        found = {one.pk: one for green_id, one in rows.items() if green_id not in out}
        for one in found.values():
            one.green.club = self.member.club
        return found

    @cached_property
    def made(self) -> Mapping[int, list[Decision]]:
        found = decisions.by_establishment(self.member.club, self.today)
        return {pk: rows for pk, rows in found.items() if pk in self.rebuilds}

    @cached_property
    def plays(self) -> Mapping[int, PlayState]:
        return {pk: stands(rows, None, self.today) for pk, rows in self.made.items()}

    @cached_property
    def proposed(self) -> Mapping[int, Proposal]:
        found = proposals.open_in(self.member.club, self.today)
        return {pk: row for pk, row in found.items() if pk in self.rebuilds}

    @cached_property
    def decided(self) -> Mapping[int, Decision]:
        """Openings of today or to come: the decision made last on each rebuild."""
        last = {pk: max(rows, key=lambda one: one.pk) for pk, rows in self.made.items()}
        opens = {pk: one for pk, one in last.items() if one.pattern != Pattern.CLOSED}
        return {pk: one for pk, one in opens.items() if one.from_day >= self.today}

    def openings(self) -> Iterator[Dated]:
        """Days proposed, and days decided."""
        for pk, one in self.proposed.items():
            yield Dated(one, self.rebuilds[pk], one.opening_on, 0, one.made_at)
        for pk, one in self.decided.items():
            yield Dated(one, self.rebuilds[pk], one.from_day, 0, one.made_at)

    def looks(self) -> Iterator[Dated]:
        """Looks after opening, counted from the real first day in play."""
        for pk, some in all_looks(self.plays, self.today).items():
            made_at = self.plays[pk].decision.made_at
            yield from (Dated(one, self.rebuilds[pk], one.on, 0, made_at) for one in some)

    def defects(self) -> Iterator[Dated]:
        """What the contractor has to put right by an agreed day."""
        rows = [one for one in record.open_defects(self.rebuilds.values()) if one.due_on]
        changed = trail.times_changed(self.member.club, "defect", (one.pk for one in rows))
        for one in rows:
            times, at = changed.get(one.pk, (1, datetime.combine(one.found_on, time(), UTC)))
            yield Dated(one, self.rebuilds[one.establishment_id], one.due_on, times - 1, at)

    def steps(self, works: bool, readings: bool) -> Iterator[Dated]:
        """Steps of the programmes in force, on the day that they are likely or were put off to."""
        rows = [
            one
            for one in self.standing_ahead()
            if (readings if one.step.kind == READING else works) and self.is_listed(one)
        ]
        answered = changes_of(self.member.club, self.rebuilds.values(), rows)
        for one in rows:
            answers, at = answered.get((one.establishment.pk, one.step.key), (0, None))
            issued = one.step.programme
            changed_at = max(filter(None, (issued.issued_at, at)))
            yield Dated(one, one.establishment, day_of(one), issued.number - 1 + answers, changed_at)

    def standing_ahead(self) -> list[Standing]:
        rebuilds = list(self.rebuilds.values())
        near = programme.steps_in_force(rebuilds).filter(is_dropped=False, latest__gte=F("asked_from"))
        rows = programme.at_hand(near.filter(latest__gte=self.today - LOOKED_AT), rebuilds)
        known = programme.answers(rebuilds, rows)
        return [one for one in standing(rows, known, self.today) if one.state in OPEN | {TO_COME, PUT_OFF}]

    def is_listed(self, one: Standing) -> bool:
        """Looks after opening stand by their real day; so does the opening once a day is in mind."""
        rebuild = one.establishment.pk
        play = self.plays.get(rebuild)
        if one.step.key == OPENING_KEY:
            return rebuild not in self.proposed | self.decided and not (play and play.is_open)
        if one.step.key.startswith(RECHECK):
            return False
        return not (one.is_open and waits_for_opening(one, play))


def day_of(one: Standing) -> date:
    """The likely day of a step, or the one that it was put off to."""
    is_put_off = one.answer is not None and one.answer.kind == AnswerKind.PUT_OFF
    return one.answer.until if is_put_off else one.step.likely


def changes_of(
    club: Club, rebuilds: Iterable[Establishment], steps: Iterable[Standing]
) -> dict[tuple[int, str], tuple[int, datetime]]:
    """How often these steps were answered, answers taken back too, and when last; two queries."""
    rows = StepAnswer.objects.filter(
        establishment__in=list(rebuilds), key__in={one.step.key for one in steps}
    )
    answers = list(rows.select_related("entry", "reading_set"))
    lines = trail.times_changed(club, "stepanswer", (one.pk for one in answers))
    return {(one.establishment_id, one.key): last_change(one, lines.get(one.pk)) for one in answers}


def last_change(one: StepAnswer, lines: tuple[int, datetime] | None) -> tuple[int, datetime]:
    """Taking back the entry or reading behind an answer is a change too."""
    behind = [row.taken_back_at for row in (one.entry, one.reading_set) if row and row.taken_back_at]
    return (lines[0] if lines else 1) + len(behind), max([one.at, *behind])
