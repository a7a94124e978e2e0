"""Decision rules: from the values of a reading to met, not met or not known.

A count is a rule "k of n", not an interval, and is compared in whole numbers. Where fewer
are taken than the protocol asks, the answer is *not known* unless the missing ones cannot
change it; where more are taken, the same share is asked of all of them, rounded up.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.intervals import mean_interval, more_readings_for_share, proportion_lower_bound
from growin.agronomy.measures import MEASURES
from growin.agronomy.plain_words import amount, counted
from growin.agronomy.summaries import DOUBTFUL_M, more_to_settle, summarise

MET, NOT_MET, NOT_KNOWN = "met", "not met", "not known"


@dataclass(frozen=True)
class Judgement:
    """``state`` is met, not met or not known; ``settles`` says what would settle the last."""

    state: str
    words: str
    settles: str = ""


def share_of(wanted: int, of: int, taken: int) -> int:
    """Whole number of ``taken`` that keeps the share ``wanted`` of ``of``, rounded up.

    4 of 5 asks 5 of 6 and 8 of 10.
    """
    return ceil(Fraction(wanted, of) * taken)


def _require_count(what: str, wanted: int, of: int) -> None:
    if not 1 <= wanted <= of:
        raise ImpossibleValue(f"number of {what} wanted", wanted, f"from 1 to {of}, the number taken")


def _take_more(more: int, places: str) -> str:
    return f"Take {more} more: {counted(more, places)}."


@dataclass(frozen=True)
class CountRule:
    """At least ``wanted`` of ``of`` pass: a yes, or a number of at least ``at_least``.

    ``subject`` opens the sentence ("White roots 50 mm below the turf/rootzone face in"),
    ``places`` closes it ("cores").
    """

    wanted: int
    of: int
    subject: str
    places: str
    at_least: float | None = None

    def __post_init__(self):
        _require_count(self.places, self.wanted, self.of)

    @property
    def count(self) -> int:
        """How many the protocol takes."""
        return self.of

    def passes(self, value) -> bool:
        """Whether one value passes."""
        return bool(value) if self.at_least is None else value >= self.at_least

    def judge(self, values: Sequence) -> Judgement:
        """The judgement on numbers or answers, one for each place."""
        taken, passed = len(values), sum(map(self.passes, values))
        needed = share_of(self.wanted, self.of, max(taken, self.of))
        state = self._state(passed, taken, needed)
        words = (
            f"{self.subject} {passed} of {counted(taken, self.places)}; {self._wanted_words(taken, needed)}."
        )
        settles = _take_more(self.of - taken, self.places) if state == NOT_KNOWN else ""
        return Judgement(state, words, settles)

    def _state(self, passed: int, taken: int, needed: int) -> str:
        if passed >= needed:
            return MET
        out_of_reach = passed + max(self.of - taken, 0) < needed
        return NOT_MET if out_of_reach else NOT_KNOWN

    def _wanted_words(self, taken: int, needed: int) -> str:
        if taken <= self.of:
            return f"{self.wanted} of {self.of} wanted"
        return f"{needed} of {taken} wanted, the share of {self.wanted} of {self.of}"


@dataclass(frozen=True)
class LargestRule:
    """No value over ``limit``, in at least ``of`` places."""

    limit: float
    of: int
    subject: str
    places: str
    unit: str = "mm"

    @property
    def count(self) -> int:
        """How many the protocol takes."""
        return self.of

    def judge(self, values: Sequence[float]) -> Judgement:
        """The judgement on numbers, one for each place."""
        over = sum(value > self.limit for value in values)
        words = f"{self.subject} {self._found(values, over)}; {self._wanted()} wanted."
        if over:
            return Judgement(NOT_MET, words)
        if len(values) < self.of:
            return Judgement(NOT_KNOWN, words, _take_more(self.of - len(values), self.places))
        return Judgement(MET, words)

    def _wanted(self) -> str:
        return f"none over {amount(self.limit, self.unit)}" if self.limit else "none"

    def _found(self, values: Sequence[float], over: int) -> str:
        if not values:
            return f"not read at any of the {self.places}"
        if len(values) == 1:
            return amount(values[0], self.unit)
        most, all_places = amount(max(values), self.unit), counted(len(values), self.places)
        if over:
            beyond = f"over {amount(self.limit, self.unit)} at" if self.limit else "at"
            return f"{beyond} {over} of {all_places}, {most} at most"
        return f"{most} at most at {all_places}" if max(values) else f"at none of {all_places}"


@dataclass(frozen=True)
class BoundRule:
    """A share of points of at least ``share_percent``, its one-sided lower bound at least ``lower_percent``.

    The bound is the lower end of the Wilson score interval at ``confidence`` on one side.
    """

    share_percent: float
    lower_percent: float
    frames: int
    points: int
    confidence: float
    subject: str = "Cover"
    places: str = "frames"

    def __post_init__(self):
        if self.lower_percent > self.share_percent:
            right = f"at most {self.share_percent:g}, the share itself"
            raise ImpossibleValue("lower bound of the cover, %", self.lower_percent, right)

    @property
    def count(self) -> int:
        """How many frames the protocol takes."""
        return self.frames

    def judge(self, values: Sequence[dict]) -> Judgement:
        """The judgement on frames of {hits, points}."""
        hits, points = (sum(one[key] for one in values) for key in ("hits", "points"))
        if not points:
            return Judgement(NOT_KNOWN, f"{self.subject} not read.", _take_more(self.frames, self.places))
        lower = 100 * proportion_lower_bound(hits, points, self.confidence)
        state = self._state(hits, points, lower)
        settles = self._settles(hits, points) if state == NOT_KNOWN else ""
        few = points < self.frames * self.points
        asked = f" {self.frames} {self.places} of {self.points} points are asked for." if few else ""
        return Judgement(state, f"{self._words(hits, points, lower)}{asked}", settles)

    def _state(self, hits: int, points: int, lower: float) -> str:
        full = max(points, self.frames * self.points)
        needed = ceil(round(self.share_percent * full / 100, 9))
        if hits + full - points < needed:
            return NOT_MET
        if points < full:
            return NOT_KNOWN
        return MET if lower >= self.lower_percent else NOT_KNOWN

    def _words(self, hits: int, points: int, lower: float) -> str:
        return (
            f"{self.subject} {amount(100 * hits / points)} % ({hits} of {points} points), "
            f"at least {amount(lower)} % allowing for chance; {amount(self.share_percent)} % wanted, "
            f"{amount(self.lower_percent)} % allowing for chance."
        )

    def _settles(self, hits: int, points: int) -> str:
        more = self.frames * self.points - points
        if more <= 0:
            share = self.lower_percent / 100
            more = more_readings_for_share(hits, points, share, self.confidence) or self.points
        frames = ceil(more / self.points)
        return f"Take {counted(frames, self.places)} of {self.points} points more."


@dataclass(frozen=True)
class YesRule:
    """Every answer as ``wanted``; the sentence is ``yes_words`` or ``no_words``."""

    yes_words: str
    no_words: str
    wanted: bool = True
    of: int = 1
    places: str = "checks"

    @property
    def count(self) -> int:
        """How many the protocol takes."""
        return self.of

    def judge(self, values: Sequence[bool]) -> Judgement:
        """The judgement on answers."""
        wrong = sum(bool(value) is not self.wanted for value in values)
        right_words, wrong_words = self._both_words()
        if wrong:
            at = f" at {wrong} of {counted(len(values), self.places)}" if len(values) > 1 else ""
            return Judgement(NOT_MET, f"{wrong_words}{at}.")
        if len(values) < self.of:
            return Judgement(
                NOT_KNOWN, f"{right_words}, so far.", _take_more(self.of - len(values), self.places)
            )
        return Judgement(MET, f"{right_words}.")

    def _both_words(self) -> tuple[str, str]:
        both = (self.yes_words, self.no_words)
        return both if self.wanted else both[::-1]


@dataclass(frozen=True)
class RangeRule:
    """A mean from ``low`` to ``high`` (either may be missing) of at least ``of`` values.

    With three values or more an interval of the mean that takes in a limit leaves it not known.
    """

    low: float | None
    high: float | None
    of: int
    subject: str
    places: str
    unit: str
    confidence: float = 0.9

    def __post_init__(self):
        if None not in (self.low, self.high) and self.low > self.high:
            raise ImpossibleValue(f"least of {self.subject}", self.low, f"at most {self.high:g}")

    @property
    def count(self) -> int:
        """How many the protocol takes."""
        return self.of

    def judge(self, values: Sequence[float]) -> Judgement:
        """The judgement on numbers."""
        taken = len(values)
        if not taken:
            return Judgement(NOT_KNOWN, f"{self.subject} not read.", _take_more(self.of, self.places))
        if taken < self.of:
            return Judgement(NOT_KNOWN, self._words(values), _take_more(self.of - taken, self.places))
        state, settles = self._state(values), ""
        if state == NOT_KNOWN:
            settles = more_to_settle(values, self._limits(), self.confidence, self.places)
        return Judgement(state, self._words(values), settles)

    def _limits(self) -> list[float]:
        return [one for one in (self.low, self.high) if one is not None]

    def _state(self, values: Sequence[float]) -> str:
        lower, upper = self._interval(values)
        if any(lower < limit < upper for limit in self._limits()):
            return NOT_KNOWN
        return MET if self._inside(_mean(values)) else NOT_MET

    def _inside(self, mean: float) -> bool:
        return (self.low is None or mean >= self.low) and (self.high is None or mean <= self.high)

    def _interval(self, values: Sequence[float]) -> tuple[float, float]:
        if len(values) < 3:
            return _mean(values), _mean(values)
        return tuple(mean_interval(values=values, confidence=self.confidence))

    def _words(self, values: Sequence[float]) -> str:
        lower, upper = self._interval(values)
        spread = f" ({amount(lower)} to {amount(upper, self.unit)})" if lower < upper else ""
        places = f" in {counted(len(values), self.places)}" if len(values) > 1 else ""
        found = f"{amount(_mean(values), self.unit)}{spread}{places}"
        return f"{self.subject} {found}; {self._wanted()} wanted."

    def _wanted(self) -> str:
        if self.low is None:
            return f"at most {amount(self.high, self.unit)}"
        if self.high is None:
            return f"at least {amount(self.low, self.unit)}"
        return f"{amount(self.low)}–{amount(self.high, self.unit)}"


@dataclass(frozen=True)
class ShownRule:
    """No threshold: the reading is shown. Not known while it is doubtful in itself.

    For a green speed: the two ways differ by over ``doubtful_m``.
    """

    measure: str
    of: int
    doubtful_m: float = DOUBTFUL_M

    @property
    def count(self) -> int:
        """How many the protocol takes."""
        return self.of

    def judge(self, values: Sequence) -> Judgement:
        """The judgement on cleaned values of the measure."""
        measure = MEASURES[self.measure]
        summary = summarise(measure, values, doubtful_m=self.doubtful_m)
        words = f"{measure.words} {summary.words}"
        if summary.doubtful or summary.count < self.of:
            return Judgement(NOT_KNOWN, words, f"Take it again on {counted(self.of, measure.places_words)}.")
        return Judgement(MET, words)


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)
