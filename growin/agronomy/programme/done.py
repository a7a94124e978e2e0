"""What was done and found on a green so far: where the chains of its programme go on from."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import cached_property

from growin.agronomy.criteria import CRITERIA, Part
from growin.agronomy.facts import ReadingFacts
from growin.agronomy.rules import MET

#: The bench is read to about a quarter of a millimetre: so much above a height is still that height
#: (our judgement).
SAME_HEIGHT_MM = 0.25
#: By then the heights are reached and the first season's feeding is given; and so far back the work of a
#: green in play still moves a step (our judgement).
GROWING_IN, LATELY = timedelta(days=550), timedelta(days=366)
#: No works take longer before a green is laid or sown (our judgement).
WORKS = timedelta(days=366)


@dataclass(frozen=True)
class Done:
    """Work and findings up to ``as_of``; the default knows of none.

    Attributes
    ----------
    as_of : date or None
        The day of the drawing: heights that stand out and the opening lie on it or later.
    steps : mapping of str to date
        Days on which steps were done, by their keys.
    passed : frozenset of str
        Keys of steps that were answered as not done.
    last : mapping of str to date
        The last day of each kind of work in the diary ("feed", "dressing", "roll" …).
    cuts : tuple of (date, float)
        Cuts with their bench height, mm, oldest first.
    feeds, dressings : tuple of (date, float)
        Nitrogen, kg/ha, and sand, kg/m², as given.
    knitted_on, emerged_on, rooted_on, covered_on : date or None
        Days by which the green itself was seen to be so far, whatever the clocks say.
    not_covered_on : date or None
        The last day on which it was read and did not cover yet.
    opened_on : date or None
        The first day in play.
    """

    as_of: date | None = None
    steps: Mapping[str, date] = field(default_factory=dict)
    passed: frozenset[str] = frozenset()
    last: Mapping[str, date] = field(default_factory=dict)
    cuts: tuple[tuple[date, float], ...] = ()
    feeds: tuple[tuple[date, float], ...] = ()
    dressings: tuple[tuple[date, float], ...] = ()
    knitted_on: date | None = None
    emerged_on: date | None = None
    rooted_on: date | None = None
    covered_on: date | None = None
    not_covered_on: date | None = None
    opened_on: date | None = None

    @cached_property
    def _numbers(self) -> dict[str, dict[int, date]]:
        """Rounds that were done: {"feed": {3: day}}."""
        rounds: dict[str, dict[int, date]] = {}
        for key, on in self.steps.items():
            chain, _, number = key.rpartition("-")
            if number.isdigit():
                rounds.setdefault(chain, {})[int(number)] = on
        return rounds

    def placed(self, chain: str, number: int, day: date, interval: Callable[[date], float]) -> date:
        """The day of a round: that on which it was done, else no sooner after the last than the interval.

        A round that was passed over lies no later than the one that was done after it. Once a chain
        has begun, the round that stands out is not planned for a day gone by.
        """
        done = self._numbers.get(chain, {})
        if number in done:
            return done[number]
        after = [on for other, on in done.items() if other > number]
        if after:
            return min(day, *after)
        last = max(filter(None, [self.last.get(chain), *done.values()]), default=None)
        if last is None or day <= last:
            return day
        due = max(day, last + timedelta(days=max(1, round(interval(last)))))
        return due if f"{chain}-{number:02d}" in self.passed else max(due, self.as_of or due)

    def is_past(self, chain: str, day: date) -> bool:
        """Whether a round lies before the last work of its kind: what was given counts, not the plan."""
        last = self.last.get(chain)
        return last is not None and day <= last

    @cached_property
    def height(self) -> tuple[float, date] | None:
        """The height the green is cut at, mm, and the first day of that; None before any cut."""
        if not self.cuts:
            return None
        height_mm, since = self.cuts[-1][1], self.cuts[-1][0]
        for on, cut_mm in reversed(self.cuts):
            if cut_mm > height_mm + SAME_HEIGHT_MM:
                break
            since = on
        return height_mm, since

    def reached(self, height_mm: float) -> date | None:
        """The first day it was cut at such a height or lower."""
        return next((on for on, cut_mm in self.cuts if cut_mm <= height_mm + SAME_HEIGHT_MM), None)


def days_that_tell(laid: date | None, on: date) -> list[tuple[date, date]]:
    """First and last of the days whose work and weather a drawing on ``on`` goes on from.

    All from the works on until the green has grown in, then those of the last year: what lies between
    moves no step.
    """
    if not grew_in_long_ago(laid, on):
        return [(date.min, on)]
    return [((laid or on) - WORKS, (laid or on) + GROWING_IN), (on - LATELY, on)]


def grew_in_long_ago(laid: date | None, on: date) -> bool:
    """Whether a green has grown in, and a year has gone by since."""
    return laid is not None and laid + GROWING_IN < on - LATELY


def sooner(clock_day: date | None, seen_on: date | None) -> date | None:
    """The day a clock gives, or the day on which the green was seen to be so, if that is earlier."""
    return min(filter(None, (clock_day, seen_on)), default=None)


def rooted_on(
    readings: Sequence[ReadingFacts], from_seed: bool, settings: Mapping[str, float]
) -> date | None:
    """The first day by which every reading of the rooting criterion has met its rule; None before."""
    criterion = CRITERIA["rooting_seed" if from_seed else "rooting_turf"]
    days = [_first_met(part, readings, settings) for part in criterion.parts_for(from_seed)]
    return None if None in days else max(days)


def _first_met(part: Part, readings: Sequence[ReadingFacts], settings: Mapping[str, float]) -> date | None:
    rule = part.rule(settings)
    met = (one.on for one in readings if one.measure == part.measure and rule.judge(one.values).state == MET)
    return min(met, default=None)


def held_on(readings: Sequence[ReadingFacts]) -> date | None:
    """The first day on which most points of a hand pull held: the turf has knitted."""
    pulls = (one for one in readings if one.measure == "hand_pull")
    return min((one.on for one in pulls if sum(map(bool, one.values)) * 2 > len(one.values)), default=None)


def cover_seen(
    readings: Sequence[ReadingFacts], covered_share: float = 0.95
) -> tuple[date | None, date | None, date | None]:
    """Of readings of cover: the first with any grass, the first that covers, the last that does not."""
    shares = sorted((one.on, _share(one)) for one in readings if one.measure == "cover")
    up = min((on for on, share in shares if share > 0), default=None)
    covers = min((on for on, share in shares if share >= covered_share), default=None)
    bare = max((on for on, share in shares if share < covered_share), default=None)
    return up, covers, bare


def _share(reading: ReadingFacts) -> float:
    points = sum(one["points"] for one in reading.values)
    return sum(one["hits"] for one in reading.values) / points if points else 0.0
