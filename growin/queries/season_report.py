"""A season of a green as a report: what it was given, how it was cut and played, what was read and found."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from itertools import groupby

from django.db.models import Q

from greens.choices import DayStateKind
from greens.models import Advice, Analysis, Club, Entry, Establishment, Green
from greens.queries import analysis as analyses
from greens.queries import day_state as day_states
from greens.queries import diary, record
from greens.queries import greens as places
from greens.queries import settings as constants
from growin.agronomy.measures import MEASURES
from growin.agronomy.plain_words import counted
from growin.agronomy.trend import in_sum
from growin.models import Decision
from growin.queries import decision, sand_budget, years
from growin.queries.remembered import kept_while_unchanged
from growin.queries.sand_budget import SandBudget
from growin.queries.season_feeding import Band, Nutrient, band_of, nutrients_of
from growin.queries.seasons import seasons_of
from growin.queries.story import cuts_of
from growin.queries.years import Followed, Year, Years

#: Kinds of entry that say how healthy the green was, and what was done about it.
HEALTH = ("watch", "spray", "animal_damage")
NOTES_SHOWN = 25


@dataclass(frozen=True)
class CutMonth:
    """Cuts of a month; heights in mm as far as they were written down."""

    first: date
    cuts: int
    lowest_mm: float | None
    highest_mm: float | None


@dataclass(frozen=True)
class Done:
    """What the diary and the record say of the season in words."""

    health: Sequence[Entry] = ()
    over_limit: Sequence[Entry] = ()
    notes: Sequence[Entry] = ()
    analyses: Sequence[Analysis] = ()
    advice: Sequence[Advice] = ()
    decisions: Sequence[Decision] = ()

    def __bool__(self) -> bool:
        """Whether it says anything."""
        return any((self.health, self.over_limit, self.notes, self.analyses, self.advice, self.decisions))

    @property
    def notes_shown(self) -> Sequence[Entry]:
        return self.notes[:NOTES_SHOWN]

    @property
    def notes_more(self) -> int:
        return max(len(self.notes) - NOTES_SHOWN, 0)


@dataclass(frozen=True)
class SeasonReport:
    """A year of a green from midwinter to midwinter, up to ``until``; ``known`` its years as they were."""

    green: Green
    rebuilt: Establishment | None
    area_m2: float | None
    opened_on: date | None
    until: date
    known: Years
    nutrients: Sequence[Nutrient]
    band: Band | None
    sand: SandBudget | None
    cuts: Sequence[CutMonth]
    states: Sequence[tuple[str, int]]
    done: Done = field(default_factory=Done)

    @property
    def year(self) -> Year:
        return self.known.years[0]

    @property
    def before(self) -> Year | None:
        return self.known.years[1] if len(self.known.years) > 1 else None

    @property
    def is_written(self) -> bool:
        """Whether anything was written of it in this season."""
        return bool(self.year.means or self.year.days_written or self.nutrients or self.cuts or self.done)

    @property
    def summary(self) -> str:
        """Whether it gets better, and how often it was kept off, in plain words."""
        told = in_sum((one.measure, name_of(one), one.state) for one in self.known.followed)
        return f"{told} {self.kept_off}"

    @property
    def kept_off(self) -> str:
        if not self.year.days_written:
            return "No day was written down on which it was open or kept off."
        written = counted(self.year.days_written, "days")
        said = f"It was kept off on {self.year.days_off} of {written} written down"
        if self.before is None or not self.before.days_written:
            return f"{said}."
        return f"{said}, {self.before.off_in_words} the year before."

    @cached_property
    def drawn(self) -> list[Followed]:
        """What stands as a picture: each way of measuring that tells a trend and was read this season."""
        return [one for one in self.known.followed if one.trend and self.sets_of(one)]

    def sets_of(self, one: Followed) -> list[tuple[date, float]]:
        """Its sets of this season."""
        return [(on, value) for on, value in one.points if on >= self.year.first]

    @property
    def trends(self) -> list[tuple[Followed, list[tuple[date, float]]]]:
        """What stands as a picture with its sets of this season."""
        return [(one, self.sets_of(one)) for one in self.drawn]

    @property
    def untold(self) -> list[tuple[Followed, list[tuple[date, float]]]]:
        """What is followed too and stands as a sentence, with its sets of this season."""
        return [(one, self.sets_of(one)) for one in self.known.followed if one not in self.drawn]


def name_of(one: Followed) -> str:
    """In the middle of a sentence its way stands in brackets."""
    words = MEASURES[one.measure].words
    return f"{words} ({one.way})" if one.way else words


@kept_while_unchanged
def of_green(green: Green, on: date, year: int | None = None) -> SeasonReport | None:
    """The season that began in ``year``, the newest where none is asked for; None where nothing was written.

    A fixed number of queries, however long the season was.
    """
    listed = [Year(*season) for season in seasons_of(green, on)]
    chosen = next((one for one in listed if year in (None, one.first.year)), None)
    return report(green, chosen, min(on, chosen.last)) if chosen else None


@kept_while_unchanged
def of_club(club: Club, on: date, year: int | None = None) -> list[SeasonReport]:
    """Those of every green with something written in that season, in the order of the course."""
    found = (of_green(green, on, year) for green in places.of(club))
    return [one for one in found if one is not None and one.is_written]


def report(green: Green, year: Year, until: date) -> SeasonReport:
    rebuilt = laid_by(green, until)
    decisions = list(decision.of(rebuilt).filter(made_on__lte=until)) if rebuilt else []
    settings = constants.in_force(green.club, until, green)
    dm2 = places.areas_on([green], until).get(green.pk)
    return SeasonReport(
        green=green,
        rebuilt=rebuilt,
        area_m2=dm2 and dm2 / 100,
        opened_on=decision.open_since(decisions, until),
        until=until,
        known=years.of_green(green, until),
        nutrients=nutrients_of(green, rebuilt, year.first, until, settings),
        band=rebuilt and band_of(rebuilt, year.first, until),
        sand=rebuilt and sand_budget.of_rebuild(rebuilt, until),
        cuts=[cut_month(first, list(rows)) for first, rows in by_month(cuts_of(green, year.first, until))],
        states=states_of(green, year.first, until),
        done=done(green, [one for one in decisions if one.from_day >= year.first], year.first, until),
    )


def laid_by(green: Green, until: date) -> Establishment | None:
    """The rebuild that lay or was sown by a day; None where there is none."""
    rebuilt = places.establishment_on(green, until)
    if rebuilt is None or rebuilt.established_on is None or rebuilt.established_on > until:
        return None
    rebuilt.green = green
    return rebuilt


def by_month(cuts: Iterable[tuple[date, float | None]]) -> Iterable[tuple[date, Iterable]]:
    return groupby(cuts, lambda one: one[0].replace(day=1))


def cut_month(first: date, rows: Sequence[tuple[date, float | None]]) -> CutMonth:
    heights = [float(mm) for _, mm in rows if mm is not None]
    return CutMonth(first, len(rows), min(heights, default=None), max(heights, default=None))


def states_of(green: Green, first: date, until: date) -> list[tuple[str, int]]:
    """Days by state, in words, as far as any was written down."""
    days = Counter(state for _, state in day_states.states_of(green, first, until))
    return [(kind.label, days[kind]) for kind in DayStateKind if days[kind]]


def done(green: Green, decisions: Sequence[Decision], first: date, until: date) -> Done:
    """Findings, limits, notes, sheets, advice and decisions of the season, the newest first."""
    span = {"on__range": (first, until)}
    told = Q(kind__in=(*HEALTH, "note")) | ~Q(note="") | ~Q(over_limit=[])
    entries = list(diary.listed(diary.on_green(diary.of(green.club), green).filter(told, **span)))
    return Done(
        health=[one for one in entries if one.kind in HEALTH],
        over_limit=[one for one in entries if one.over_limit],
        notes=[one for one in entries if one.kind == "note" or (one.note and one.kind not in HEALTH)],
        analyses=list(analyses.of_green(green).filter(**span)),
        advice=list(record.advice_on(green).filter(**span)),
        decisions=decisions,
    )
