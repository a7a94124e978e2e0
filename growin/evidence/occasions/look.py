"""A look at a club: everything that the kinds ask about, read once for all its greens."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property

from django.urls import reverse

from greens.actions.notice import Telling
from greens.choices import NoticeKind
from greens.models import Club, Defect, Entry, Establishment, Green
from greens.queries import diary, greens, readings, record
from greens.queries import settings as constants
from growin.agronomy.in_play import Recheck
from growin.agronomy.programme import OPENING_KEY
from growin.evidence.occasions.words import digest_of
from growin.evidence.verdict import Judged, judged_all
from growin.models import KeptForecast, Proposal
from growin.queries import decision as decisions
from growin.queries import forecast as forecasts
from growin.queries import programme
from growin.queries import proposal as proposals
from growin.queries.budget import Budget, budgets
from growin.queries.decision import PlayState
from growin.queries.recheck import rechecks
from growin.queries.sand_budget import SandBudget
from growin.queries.sand_budget import budgets as sand_budgets
from growin.queries.standing import Standing
from growin.queries.today import asked

#: Nutrients whose sums have a bound: by the season's band, or by the club's own limit.
BOUNDED = {"nitrogen": "N", "phosphorus": "P"}
#: So far ahead the week in plain words names steps.
AHEAD = timedelta(days=42)


@dataclass(frozen=True)
class Found:
    """What one kind found: the ``telling``, and whether it ``is_new``; one that is not says anew what stands
    already. Whether something of it ``holds`` still; ``after``, what the next look must know."""

    telling: Telling | None = None
    holds: bool = False
    after: object = None
    is_new: bool = True


@dataclass(frozen=True)
class Look:
    """A club on a day of its own; ``only`` are the greens whose record has changed, None: all of them."""

    club: Club
    on: date
    only: frozenset[int] | None = None

    @cached_property
    def rebuilds(self) -> list[Establishment]:
        """The newest rebuild of each green that is looked at."""
        rows = greens.current_establishments(self.club).items()
        found = [row for green_id, row in rows if self.only is None or green_id in self.only]
        for one in found:
            one.green.club = self.club
        return found

    @cached_property
    def judged(self) -> Mapping[int, Judged]:
        return {one.establishment.pk: one for one in judged_all(self.club, self.rebuilds, self.on)}

    @cached_property
    def plays(self) -> Mapping[int, PlayState]:
        return decisions.play_states(self.club, self.on)

    @cached_property
    def rechecks(self) -> Mapping[int, Recheck]:
        return rechecks(self.plays, self.on)

    @cached_property
    def asked(self) -> Mapping[int, Sequence[Standing]]:
        """What is asked of the greenstaff on each rebuild, as the page of the day asks it."""
        found = defaultdict(list)
        for one in asked(self.rebuilds, self.on, self.plays):
            found[one.establishment.pk].append(one)
        return found

    @cached_property
    def forecasts(self) -> Mapping[int, KeptForecast]:
        return forecasts.newest_of(self.rebuilds)

    @cached_property
    def proposals(self) -> Mapping[int, Proposal]:
        return proposals.standing_in(self.club, self.on)

    @cached_property
    def defects(self) -> Mapping[int, Sequence[Defect]]:
        """Those still open, by the rebuild."""
        found = defaultdict(list)
        for one in record.open_defects(self.rebuilds):
            found[one.establishment_id].append(one)
        return found

    @cached_property
    def sums(self) -> Mapping[int, Mapping[str, Budget | SandBudget]]:
        """What bounds a season on each laid rebuild: nitrogen, phosphorus and sand, by their names."""
        laid = [one for one in self.rebuilds if self.is_laid(one)]
        fed = {words: budgets(self.club, laid, element, self.on) for words, element in BOUNDED.items()}
        sanded = {one.establishment.pk: one for one in sand_budgets(self.club, laid, self.on)}
        return {
            one.pk: {words: found[one.pk] for words, found in fed.items()} | {"sand": sanded[one.pk]}
            for one in laid
        }

    @cached_property
    def opening_days(self) -> Mapping[int, date]:
        """The opening that each programme plans, by the rebuild."""
        steps = programme.steps_in_force(self.rebuilds).filter(key=OPENING_KEY, is_dropped=False)
        return dict(steps.order_by().values_list("programme__establishment", "likely"))

    @cached_property
    def last_week(self) -> tuple[date, date]:
        """Monday and Sunday of the last whole week."""
        monday = self.on - timedelta(days=self.on.weekday() + 7)
        return monday, monday + timedelta(days=6)

    @cached_property
    def week_done(self) -> Mapping[int, Sequence[Entry]]:
        """The diary of that week, by the green."""
        entries = diary.of(self.club).filter(on__range=self.last_week)
        return diary.by_green(entries, [one.green for one in self.rebuilds])

    @cached_property
    def week_read(self) -> Mapping[int, Sequence[str]]:
        """The measures that were read in that week, by the rebuild."""
        return readings.measures_read(self.rebuilds, *self.last_week)

    @cached_property
    def coming(self) -> Mapping[int, Sequence[Standing]]:
        """What comes on each rebuild in the next weeks."""
        return programme.coming(self.rebuilds, self.on, self.on + AHEAD)

    @cached_property
    def settings(self) -> Mapping[str, float]:
        """The club's constants in force."""
        return constants.in_force(self.club, self.on)

    def is_open(self, rebuild: Establishment) -> bool:
        play = self.plays.get(rebuild.pk)
        return play is not None and play.is_open

    def is_laid(self, rebuild: Establishment) -> bool:
        return rebuild.established_on is not None and rebuild.established_on <= self.on

    def page(self, name: str, green: Green | None = None) -> str:
        """The path of a page of the club, or of a green."""
        return reverse(name, args=[self.club.slug, *([green.pk] if green else [])])


def as_they_stand(
    look: Look,
    rebuild: Establishment,
    kind: NoticeKind,
    states: Mapping[str, str],
    before: Mapping[str, str] | None,
    *,
    subject: str,
    text: str,
    place: str,
    presses: bool,
) -> Found:
    """Told with all that is open of a kind, when one thing stands otherwise than ``before`` or is new.

    ``states`` is how each thing stands, by what names it; where one only went, what is told already is
    said anew.
    """
    if not states or states == before:
        return Found(holds=bool(states), after=states)
    telling = Telling(
        kind=kind,
        key=f"{kind} {rebuild.pk} {look.on} {digest_of(states)}",
        subject=f"{rebuild.green}: {subject}",
        text=text,
        place=place,
        green=rebuild.green,
        presses=presses,
    )
    is_new = any((before or {}).get(key) != state for key, state in states.items())
    return Found(telling, holds=True, after=states, is_new=is_new)
