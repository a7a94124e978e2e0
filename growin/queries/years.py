"""The years of a green after opening: trends of what is measured, year against year, rebuilt against old."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from statistics import fmean

from django.db.models import Count, Q

from greens.models import Club, DayState, Green, ReadingSet
from greens.queries import diary, nutrients, sands
from greens.queries import greens as places
from greens.queries.spans import by_span
from growin.agronomy.green_speed import green_speed_from_rolls
from growin.agronomy.in_play import KEPT_OFF
from growin.agronomy.measures import MEASURES, SHAPE_ROLLS
from growin.agronomy.nutrition import MG_M2_PER_KG_HA
from growin.agronomy.plain_words import amount, counted, dated
from growin.agronomy.trend import AIMS, Along, Trend, along, judge, sentence, trend
from growin.queries.remembered import kept_while_unchanged
from growin.queries.seasons import seasons_of

#: Shown beside each other; a line over more of them would say little of now (our judgement).
MOST_YEARS = 5
#: What tells one trend from another of the same measure: methods are never mixed.
APART = ("method", "depth_from_mm", "depth_to_mm", "hammer_kg", "rod_length_mm")
#: Pieces in which a line with its band is drawn.
LINE_STEPS = 40
FOLLOWED = tuple(key for key in AIMS if key in MEASURES)


@dataclass(frozen=True)
class Followed:
    """A measure on one green, taken in one way: its sets and where they go."""

    measure: str
    way: str
    points: Sequence[tuple[date, float]]

    @property
    def trend(self) -> Trend | None:
        return trend(self.points)

    @property
    def words(self) -> str:
        words = MEASURES[self.measure].words
        return f"{words}, {self.way}" if self.way else words

    @property
    def state(self) -> str:
        return judge(self.measure, self.trend)

    @property
    def sentence(self) -> str:
        return sentence(self.words, self.unit, self.measure, self.trend)

    @property
    def unit(self) -> str:
        return MEASURES[self.measure].unit

    @property
    def line(self) -> list[Along]:
        """The straight line with its band from the first set to the last; nothing without a trend."""
        first, last = self.points[0][0], self.points[-1][0]
        step = (last - first) / LINE_STEPS
        return along(self.points, [first + n * step for n in range(LINE_STEPS)] + [last])

    @property
    def rows(self) -> list[tuple[date, float, Along]]:
        """Each set with the line on its day, the newest first."""
        on_line = along(self.points, [on for on, _ in self.points])
        return [(on, value, one) for (on, value), one in zip(self.points, on_line, strict=True)][::-1]

    @property
    def limits(self) -> list[tuple[float, str]]:
        """Where it should lie, each end with its words: "at least 80 gravities"."""
        aim = AIMS[self.measure]
        ends = zip(aim.band or (), ("at least", "at most"), strict=False)
        found = [(at, f"{words} {self.amount(at)} {aim.when}".rstrip()) for at, words in ends]
        most = aim.most(self.way)
        return found if most is None else [*found, (most, f"wanted under {self.amount(most)}")]

    @property
    def in_words(self) -> str:
        """What the picture shows, for who cannot see it."""
        first, *_, last = self.line
        sets = f"{counted(len(self.points), 'sets')} from {dated(first.on)} to {dated(last.on)}"
        line = f"a straight line through them from {self.likely(first)} to {self.likely(last)}"
        asked = f"; asked: {', '.join(words for _, words in self.limits)}" if self.limits else ""
        return f"{self.words}: {sets}, and {line}{asked}."

    def likely(self, one: Along) -> str:
        """The line on a day with its band: "82 gravities (likely 79 to 85 gravities)"."""
        return f"{self.amount(one.mean)} (likely {amount(one.low)} to {self.amount(one.high)})"

    def amount(self, value: float) -> str:
        return amount(value, self.unit)


@dataclass
class Year:
    """A year from midwinter to midwinter: what was done, and the means of what was read."""

    first: date
    last: date
    n_kg_ha: float = 0.0
    sand_kg_m2: float = 0.0
    cuts: int = 0
    days_written: int = 0
    days_off: int = 0
    means: dict[str, float] = field(default_factory=dict)
    is_running: bool = False

    @property
    def share_off(self) -> float | None:
        """Of the days written down the share on which it was kept off, %; None where none was written."""
        return 100 * self.days_off / self.days_written if self.days_written else None

    @property
    def off_in_words(self) -> str:
        return f"{self.days_off} of {self.days_written}" if self.days_written else "none written"

    @property
    def name(self) -> str:
        return f"{self.first.year}" if self.first.month == 1 else f"{self.first.year}–{self.last:%y}"


@dataclass(frozen=True)
class Worth:
    """The rebuilt green beside the club's old ones in one year, by a measure: what the rebuild was worth."""

    words: str
    unit: str
    own: float
    others: float
    count: int

    @property
    def difference(self) -> float:
        return self.own - self.others


@dataclass(frozen=True)
class Years:
    """Everything the page says; ``before`` is the year of the season before the oldest one shown."""

    followed: Sequence[Followed]
    years: Sequence[Year]
    worth: Sequence[Worth]
    worth_of: str = ""
    before: int | None = None

    @property
    def in_words(self) -> str:
        """What the picture of the years shows, for who cannot see it."""
        said = [
            f"{one.name}{' so far' if one.is_running else ''} {amount(one.n_kg_ha, 'kg/ha', 0)} of nitrogen, "
            f"{amount(one.sand_kg_m2, 'kg/m²')} of sand, days kept off {one.off_in_words}"
            for one in self.years[::-1]
        ]
        return f"Year against year: {'; '.join(said)}."

    @property
    def rows(self) -> list[tuple[str, str, list[float | None]]]:
        """Words, unit and the mean of each year, for every way in which something was measured."""
        return [
            (one.words, MEASURES[one.measure].unit, [year.means.get(one.words) for year in self.years])
            for one in self.followed
        ]


@kept_while_unchanged
def of_green(green: Green, on: date) -> Years:
    """One green over its last years; nine queries, however many there were."""
    club = green.club
    seasons = seasons_of(green, on)
    years = years_of(green, seasons[:MOST_YEARS], on)
    read = read_on([green], years[-1].first, on).get(green.pk, {})
    for one in years:
        one.means = means_in(read, one)
    last = years[1] if len(years) > 1 else years[0]
    return Years(
        followed=[Followed(measure, way, points) for (measure, way), points in read.items()],
        years=years,
        worth=list(worth_in(club, green, last, on)),
        worth_of=last.name,
        before=seasons[MOST_YEARS][0].year if len(seasons) > MOST_YEARS else None,
    )


def read_on(spread: Iterable[Green], since: date, on: date) -> dict[int, dict[tuple[str, str], list]]:
    """(measure, way) → [(day, mean)] of each green in a span of days, oldest first; one query."""
    rows = ReadingSet.objects.filter(
        green__in=list(spread), taken_back_at=None, measure__in=FOLLOWED, on__range=(since, on)
    )
    found: dict[int, dict] = defaultdict(lambda: defaultdict(list))
    columns = ("green", "measure", "on", "values", "protocol")
    for green, measure, day, values, protocol in rows.order_by("on", "pk").values_list(*columns):
        found[green][measure, way_of(protocol)].append((day, mean_of(measure, values)))
    return found


def way_of(protocol: Mapping) -> str:
    """How a set was taken, as far as it keeps its trend apart: "0 to 20 mm, loss on ignition"."""
    kept = {key: protocol[key] for key in APART if protocol.get(key) not in (None, "")}
    said = []
    if "depth_to_mm" in kept:
        said.append(f"{kept.get('depth_from_mm', 0):g} to {kept['depth_to_mm']:g} mm")
    said += [str(kept["method"])] if "method" in kept else []
    said += [f"{kept['hammer_kg']:g} kg hammer"] if "hammer_kg" in kept else []
    said += [f"{kept['rod_length_mm']:g} mm rods"] if "rod_length_mm" in kept else []
    return ", ".join(said)


def mean_of(measure: str, values: Sequence) -> float:
    if MEASURES[measure].shape == SHAPE_ROLLS:
        return fmean(green_speed_from_rolls(one["first"], one["second"]).speed_m for one in values)
    return fmean(values)


def years_of(green: Green, seasons: Sequence[tuple[date, date]], on: date) -> list[Year]:
    """Seasons with what was done in them; five queries."""
    years = [Year(start, end) for start, end in seasons]
    fill(years, green, on)
    return years


def fill(years: Sequence[Year], green: Green, on: date) -> None:
    """What was fed, sanded and cut, and how many days it was kept off."""
    spans = [(one.first, min(one.last, on)) for one in years]
    whole = spans[-1][0], on
    sand = sands.dressings([green], whole).get(green.pk, ())
    cuts = by_span(diary.lines_on(green, "cut", *whole), "on", spans, number)
    states = DayState.objects.filter(green=green, on__range=whole)
    written = by_span(states, "on", spans, number)
    off = by_span(states.filter(state__in=KEPT_OFF), "on", spans, number)
    fed = nutrients.sums_of_spans_mg_m2(green, "N", spans)
    for one, *told in zip(years, fed, cuts, written, off, strict=True):
        one.is_running = on < one.last
        mg_m2, one.cuts, one.days_written, one.days_off = told
        one.n_kg_ha = mg_m2 / MG_M2_PER_KG_HA
        one.sand_kg_m2 = sum(row.kg_m2 for row in sand if one.first <= row.on <= one.last)


def number(those: Q) -> Count:
    return Count("pk", filter=those)


def means_in(read: Mapping[tuple[str, str], Sequence], year: Year) -> dict[str, float]:
    """The mean of each followed measure in a span of days, all its ways apart, by its words."""
    found = {}
    for (measure, way), points in read.items():
        mean = mean_between(points, year)
        if mean is not None:
            found[Followed(measure, way, ()).words] = mean
    return found


def mean_between(points: Sequence[tuple[date, float]], year: Year) -> float | None:
    lying = [value for day, value in points if year.first <= day <= year.last]
    return fmean(lying) if lying else None


def worth_in(club: Club, green: Green, year: Year, on: date) -> Iterable[Worth]:
    """The green beside those of the club that were never rebuilt, in one year; three queries."""
    rebuilt = set(places.current_establishments(club))
    old = [one for one in places.of(club) if one.pk not in rebuilt]
    if green.pk not in rebuilt or not old:
        return
    yield from days_beside(green, old, year)
    read = read_on([green, *old], year.first, min(on, year.last))
    for key, points in read.get(green.pk, {}).items():
        mine = mean_between(points, year)
        others = [mean_between(read[one.pk].get(key, ()), year) for one in old if one.pk in read]
        theirs = [one for one in others if one is not None]
        if mine is not None and theirs:
            words = Followed(*key, ()).words
            yield Worth(words, MEASURES[key[0]].unit, mine, fmean(theirs), len(theirs))


def days_beside(green: Green, old: Sequence[Green], year: Year) -> Iterable[Worth]:
    """Share of the days written down on which each was kept off."""
    rows = DayState.objects.filter(green__in=[green, *old], on__range=(year.first, year.last))
    by_green: dict[int, list[bool]] = defaultdict(list)
    for pk, state in rows.values_list("green", "state"):
        by_green[pk].append(state in KEPT_OFF)
    shares = {pk: 100 * fmean(states) for pk, states in by_green.items()}
    others = [share for pk, share in shares.items() if pk != green.pk]
    if green.pk in shares and others:
        yield Worth("Days kept off, of those written down", "%", shares[green.pk], fmean(others), len(others))
