"""Where logging starts: which kinds come first, what is filled in already, what it may answer."""

from dataclasses import dataclass
from datetime import date, timedelta

from greens.models import Club, Entry, Green
from greens.queries import diary
from greens.queries import greens as places
from growin.agronomy.cautions import Caution
from growin.agronomy.works import FAMILIES, WORKS, Work
from growin.queries import diary as queries
from growin.queries import today
from growin.queries.amounts import AsPlanned, as_planned, store_of
from growin.queries.remembered import kept_while_unchanged
from growin.queries.standing import Standing
from growin.queries.together import Together

LOOKED_BACK = timedelta(days=60)
#: What a grow-in logs most (our judgement), for a diary that is still empty.
USUAL = ("cut", "feed", "water", "dressing", "roll", "hand_water")
FIRST = 6


@dataclass(frozen=True)
class Choice:
    """Kinds to choose from: the most used, then all by family, for these greens."""

    greens: list[Green]
    first: list[Work]
    families: list[tuple[str, list[Work]]]
    chosen: Green | None = None

    @property
    def query(self) -> str:
        """Carries the chosen green on to the form."""
        return f"?green={self.chosen.pk}" if self.chosen else ""


def of_choice(club: Club, green_id) -> Choice:
    """``green_id`` as it stands in the address; none, or one that is not the club's, means all greens."""
    chosen = chosen_greens(club, green_id)
    used = [*diary.kinds_by_use(club, club.local_today() - LOOKED_BACK), *USUAL]
    first = [WORKS[key] for key in dict.fromkeys(used) if not WORKS[key].answer_only][:FIRST]
    families = [
        (words, [work for work in WORKS.values() if work.family == family and not work.answer_only])
        for family, words in FAMILIES.items()
    ]
    named = chosen[0] if len(chosen) == 1 else None
    whole = [] if green_id == "none" else list(places.of(club))
    return Choice(chosen or whole, first, families, named)


def group_of(club: Club, on: date, kind: str, due: str | None) -> Together | None:
    """What is due alike on several greens, by the name that the day's page gives it."""
    groups = today.of_club(club, on).together if due else ()
    return next((one for one in groups if one.key == due and one.step.kind == kind), None)


def greens_due(club: Club, kind: str) -> list[Green]:
    """Greens on which this work is due today; any work at all where ``kind`` is empty."""
    rows = today.of_club(club, club.local_today()).greens
    due = {
        row.green.pk for row in rows for line in row.lines if line.is_work and kind in ("", line.step.kind)
    }
    return [green for green in places.of(club) if green.pk in due]


def chosen_greens(club: Club, green_id, kind: str = "") -> list[Green]:
    """The one green of the address, or the club's only one; all, those due, else none."""
    greens = list(places.of(club))
    if green_id in ("all", "due"):
        return greens if green_id == "all" else greens_due(club, kind)
    chosen = [green for green in greens if str(green.pk) == str(green_id)]
    return chosen or (greens if len(greens) == 1 else [])


@dataclass(frozen=True)
class Start:
    """What a form for one kind of work starts from."""

    work: Work
    on: date
    greens: list[Green]
    last: Entry | None
    copied: Entry | None
    step: Standing | None
    offered: list[Standing]
    cautions: tuple[Caution, ...]
    planned: AsPlanned | None = None
    group: Together | None = None

    @property
    def answered(self) -> list[Standing]:
        """The steps that this form was opened for."""
        if self.group:
            return [line.standing for line in self.group.lines]
        return [self.step] if self.step else []


def of_work(club: Club, work: Work, asked) -> Start:
    """``asked`` may name a green, an entry to copy ("copy"), a step ("step") or steps of greens ("due").

    In place of one green stand "all", "none", or "due" for those on which this work is due.
    """
    named = (asked.get(key) for key in ("green", "copy", "step", "due"))
    return start_of(club, work.key, club.local_today(), *named)


@kept_while_unchanged
def start_of(
    club: Club, kind: str, on: date, green: str | None, copy: str | None, key: str | None, due: str | None
) -> Start:
    """Where a form for work of this kind starts from on a day."""
    work, group = WORKS[kind], group_of(club, on, kind, due)
    greens = group.greens if group else chosen_greens(club, green, kind)
    offered = queries.nearest(queries.offered(club, work, on), greens, key)
    if group:
        offered = [line.standing for line in group.lines]
    step = next((one for one in offered if one.step.key == key and one.green in greens), None)
    return Start(
        work=work,
        on=on,
        greens=greens,
        last=diary.last_of(club, work.key, greens),
        copied=copy_of(club, work, copy),
        step=step,
        offered=offered,
        cautions=queries.cautions(club, work, greens, on),
        planned=planned_of(club, step, group),
        group=group,
    )


def planned_of(club: Club, step: Standing | None, group: Together | None) -> AsPlanned | None:
    """What the plan says of an entry for this step, or for all steps of a group."""
    if group:
        return group.as_planned
    return as_planned(step.step, step.green.area_m2, store_of(club)) if step else None


def copy_of(club: Club, work: Work, pk) -> Entry | None:
    """The entry to copy, if it is the club's and of this kind."""
    if not str(pk or "").isdigit():
        return None
    return diary.with_lines(diary.of(club).filter(kind=work.key, pk=int(pk))).first()
