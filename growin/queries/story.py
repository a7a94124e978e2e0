"""A green's story: every day's warmth, and what was done and read on it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from greens.models import EntryGreen, Establishment, Green
from greens.queries import diary, nutrients, sands, weather
from greens.queries.spans import Span
from growin.agronomy import climate as climates
from growin.agronomy.nutrition import MG_M2_PER_KG_HA
from growin.agronomy.species import SPECIES
from growin.queries.remembered import kept_while_the_frame_stands

LONGEST_DAYS = 730
MARKED = {"cut": "Cuts", "feed": "Feeds", "dressing": "Dressings"}


@dataclass(frozen=True)
class StoryDay:
    """One day of the strip: °C above the leaf base, and whether the day was measured."""

    on: date
    leaf_c: float
    is_measured: bool


@dataclass(frozen=True)
class Story:
    """The strip's days, the days of each kind of mark, and the turning points by their day."""

    days: tuple[StoryDay, ...]
    marks: Mapping[str, tuple[date, ...]]
    turns: tuple[tuple[date, str], ...]

    @property
    def months(self) -> list["StoryMonth"]:
        """The same by calendar month, as a table says it."""
        by_month = groupby(self.days, key=lambda day: day.on.replace(day=1))
        return [self._month(first, list(days)) for first, days in by_month]

    def _month(self, first: date, days: list[StoryDay]) -> "StoryMonth":
        counts = tuple(sum(on.replace(day=1) == first for on in marked) for marked in self.marks.values())
        warmth = sum(day.leaf_c for day in days)
        return StoryMonth(first, warmth, sum(day.is_measured for day in days), len(days), counts)


@dataclass(frozen=True)
class StoryMonth:
    """A month of the story: °C·days, measured days of all its days, and the count of each mark."""

    first: date
    leaf_c: float
    measured: int
    days: int
    counts: tuple[int, ...]


@dataclass(frozen=True)
class StoryTable:
    """The story as its table says it: since when, the kinds of mark, month by month."""

    since: date
    kinds: tuple[str, ...]
    months: tuple[StoryMonth, ...]


def climate_of(club, *spans: Span) -> climates.Climate | None:
    """Normals of a club and its measured days in some spans; none without normals."""
    normals = weather.normals_c(club)
    if not normals:
        return None
    return climates.Climate(normals, float(club.day_spread_c), weather.means(club, *spans))


def story_of(establishment: Establishment, as_of: date) -> Story:
    """From the digging (or two years back) to ``as_of``; four queries."""
    first = max(establishment.works_started_on, as_of - timedelta(days=LONGEST_DAYS))
    return Story(
        strip_days(establishment, first, as_of),
        marks_of(establishment, first, as_of),
        tuple(turning_points(establishment, first, as_of)),
    )


@kept_while_the_frame_stands
def strip_days(establishment: Establishment, first: date, last: date) -> tuple[StoryDay, ...]:
    """The warmth of each day; none without normals."""
    climate = climate_of(establishment.green.club, (first, last))
    if climate is None:
        return ()
    leaf = climates.degree_days(SPECIES[establishment.species].leaf_base_c)
    days = [first + timedelta(days=number) for number in range((last - first).days + 1)]
    return tuple(StoryDay(on, climate.worth(leaf, on), climate.is_measured(on)) for on in days)


def marks_of(establishment: Establishment, first: date, last: date) -> dict[str, tuple[date, ...]]:
    """Days with a cut, a feed, a dressing, a reading."""
    lines = EntryGreen.objects.filter(
        establishment=establishment,
        entry__taken_back_at=None,
        on__range=(first, last),
        kind__in=MARKED,
    ).values_list("kind", "on")
    worked = sorted(set(lines))
    marks = {words: tuple(on for kind, on in worked if kind == key) for key, words in MARKED.items()}
    read = establishment.reading_sets.filter(taken_back_at=None, on__range=(first, last))
    return marks | {"Readings": tuple(sorted(set(read.values_list("on", flat=True))))}


def turning_points(establishment: Establishment, first: date, last: date):
    """The days on which the story turns: digging, laying or sowing."""
    if establishment.works_started_on >= first:
        yield establishment.works_started_on, "digging"
    if establishment.established_on and first <= establishment.established_on <= last:
        yield establishment.established_on, "laid" if establishment.is_turf else "sown"


@dataclass(frozen=True)
class Had:
    """What a green has had in a span of days."""

    since: date
    n_kg_ha: float
    sand_kg_m2: float
    cuts: int
    last_height_mm: float | None
    last_cut_on: date | None


def had(green: Green, since: date, as_of: date) -> Had:
    """Nitrogen, sand and cuts of a green from ``since`` to ``as_of``; four queries."""
    cuts = list(cuts_of(green, since, as_of))
    last = cuts[-1] if cuts else (None, None)
    return Had(
        since,
        nutrients.sum_mg_m2(green, "N", since, as_of) / MG_M2_PER_KG_HA,
        sands.kg_m2([green], since, as_of).get(green.pk, 0.0),
        len(cuts),
        last[1],
        last[0],
    )


def cuts_of(green: Green, since: date, as_of: date):
    """(day, bench height in mm or none) of each cut, oldest first."""
    lines = diary.lines_on(green, "cut", since, as_of).order_by("on", "entry_id")
    return ((on, details.get("height_mm")) for on, details in lines.values_list("on", "entry__details"))
