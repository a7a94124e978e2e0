"""Decisions on opening and closing, and how a green therefore stands in play.

The decision made last counts, from its day on: a closing made today also ends an opening that
was decided earlier for a day still to come.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from django.db.models import Max, QuerySet

from greens.models import Club, DayState, Establishment
from greens.queries import day_state as day_states
from growin.agronomy.in_play import is_safety_closure, next_recheck
from growin.models import Decision, Pattern
from growin.queries.remembered import kept_while_the_frame_stands


@dataclass(frozen=True)
class PlayState:
    """How a green stands on a day: the decision that counts, since when it is open, the day's state."""

    decision: Decision | None
    since: date | None
    day_state: DayState | None
    coming: Decision | None
    recheck_on: date | None

    @property
    def is_open(self) -> bool:
        """Whether a decision holds it open; the day may still shut it."""
        return self.decision is not None and self.decision.pattern != Pattern.CLOSED

    @property
    def is_shut_today(self) -> bool:
        """Whether frost, thaw or standing water shuts it today, whatever was decided."""
        return self.day_state is not None and is_safety_closure(self.day_state.state)


def of_club(club: Club) -> QuerySet[Decision]:
    return Decision.objects.filter(establishment__green__club=club).select_related(
        "establishment__green", "by"
    )


def of(establishment: Establishment) -> QuerySet[Decision]:
    """Decisions on one establishment, the one made last first."""
    return establishment.decisions.select_related("by").defer("evidence").order_by("-pk")


def all_of(club: Club) -> QuerySet[Decision]:
    """Every decision of a club, the one made last first, without the bulk of its evidence."""
    return of_club(club).defer("evidence").order_by("-pk")


def one(club: Club, pk: int) -> Decision:
    return of_club(club).get(pk=pk)


def evidence_of(decision: Decision) -> dict:
    """What a decision was signed on; one query, since lists leave it out."""
    return Decision.objects.values_list("evidence", flat=True).get(pk=decision.pk)


def proposed_days(club: Club, as_of: date) -> dict[int, date]:
    """Opening days decided on and still to come on a day, by the establishment's id; one query."""
    made = Decision.objects.filter(establishment__green__club=club, made_on__lte=as_of).order_by()
    last = made.values("establishment").annotate(last=Max("pk")).values("last")
    opens = Decision.objects.filter(pk__in=last, from_day__gte=as_of).exclude(pattern=Pattern.CLOSED)
    return dict(opens.order_by().values_list("establishment", "from_day"))


def in_force(made: Iterable[Decision], on: date) -> Decision | None:
    """Of decisions in any order, the one made last among those whose day has come."""
    return max((one for one in made if one.from_day <= on), key=lambda one: one.pk, default=None)


def open_since(made: Iterable[Decision], on: date) -> date | None:
    """The first day of the run of open decisions that holds on a day; None when it is closed."""
    since = None
    for one in sorted((one for one in made if one.from_day <= on), key=lambda one: one.pk):
        since = None if one.pattern == Pattern.CLOSED else since or one.from_day
    return since


def coming(made: Iterable[Decision], on: date) -> Decision | None:
    """A decision for a day still to come, unless a later one replaced it."""
    last = max(made, key=lambda one: one.pk, default=None)
    return last if last and last.from_day > on else None


def play_state(establishment: Establishment, on: date) -> PlayState:
    """How one green stands on a day; three queries."""
    made = of_rebuild(establishment, on)
    return stands(made, day_states.of_green_on(establishment.green, on), on)


def of_rebuild(establishment: Establishment, on: date) -> list[Decision]:
    """The decisions that tell how one establishment stands on a day."""
    return by_establishment(establishment.green.club, on).get(establishment.pk, [])


@kept_while_the_frame_stands
def by_establishment(club: Club, on: date) -> dict[int, list[Decision]]:
    """Of any number of decisions those that :func:`in_force`, :func:`open_since` and :func:`coming` go by, by
    the establishment's id; two queries.

    On each rebuild that is the one made last, the last whose day has come, and the one that opened the
    green after it was last closed. All are looked through by a few figures of each, these are read whole.
    """
    made = Decision.objects.filter(establishment__green__club=club).order_by()
    looked_through = made.values_list("pk", "establishment_id", "pattern", "from_day", named=True)
    told = {pk for few in _by_rebuild(looked_through).values() for pk in _telling(few, on)}
    return _by_rebuild(of_club(club).filter(pk__in=told).defer("evidence")) if told else {}


def _telling(made: list, on: date) -> Iterator[int]:
    """The ids of those that tell, of the decisions on one rebuild."""
    begun = sorted((one for one in made if one.from_day <= on), key=lambda one: one.pk)
    yield max(one.pk for one in made)
    if begun:
        yield begun[-1].pk
        closed = max((one.pk for one in begun if one.pattern == Pattern.CLOSED), default=0)
        yield from [one.pk for one in begun if one.pk > closed][:1]


def _by_rebuild(made: Iterable) -> dict[int, list]:
    found: dict[int, list] = {}
    for one in made:
        found.setdefault(one.establishment_id, []).append(one)
    return found


def play_states(club: Club, on: date) -> dict[int, PlayState]:
    """How every establishment with a decision stands on a day, by its id; three queries."""
    states = day_states.on_day(club, on)
    return {
        pk: stands(made, states.get(made[0].establishment.green_id), on)
        for pk, made in by_establishment(club, on).items()
    }


def stands(made: list[Decision], day_state: DayState | None, on: date) -> PlayState:
    """How a green with these decisions and this state of the day stands."""
    since = open_since(made, on)
    recheck_on = next_recheck(since, on) if since else None
    return PlayState(in_force(made, on), since, day_state, coming(made, on), recheck_on)
