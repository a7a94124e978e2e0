"""Whether something on a green gets better over the years: a straight line, its interval, a plain sentence.

What is better for a measure stands in a table: less of it, more of it, or the way into a band. A change is
told only where the interval of the slope leaves nothing out.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from math import sqrt
from statistics import fmean

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT, PUBLISHED
from growin.agronomy.plain_words import amount, joined
from growin.agronomy.student import t_quantile

DAYS_A_YEAR = 365.25
#: Fewer sets, or a shorter span, tell nothing of years (our judgement).
LEAST_POINTS, LEAST_DAYS = 4, 180
_WANTED = f"{LEAST_POINTS} sets over {LEAST_DAYS} days"
CONFIDENCE = 0.9
BETTER, WORSE, STEADY, UNKNOWN = "better", "worse", "no change", "not known"
LESS, MORE, BAND = "less", "more", "band"


@dataclass(frozen=True)
class Aim:
    """What is better for a measure.

    ``band`` where it should lie between two figures, ``when`` if only at a time of the year; ``most_at`` what
    it should stay under, by the depth that was sampled.
    """

    towards: str
    band: tuple[float, float] | None = None
    mark: str = OUR_JUDGEMENT
    source: str = ""
    when: str = ""
    most_at: Mapping[str, float] = field(default_factory=dict)

    def most(self, way: str) -> float | None:
        """What it should stay under, taken in this way ("0 to 20 mm, 440 °C"); None where nothing is said."""
        return next((most for depth, most in self.most_at.items() if way.startswith(depth)), None)


AIMS: Mapping[str, Aim] = {
    "poa_share": Aim(LESS, mark=COMMON_PRACTICE),
    "organic_matter": Aim(
        LESS,
        mark=PUBLISHED,
        source="STRI 2010: under 6 % at 0–20 mm, under 4 % at 20–40 mm",
        most_at={"0 to 20 mm": 6, "20 to 40 mm": 4},
    ),
    "thatch_depth": Aim(LESS, mark=COMMON_PRACTICE),
    "hardness": Aim(BAND, (80, 100), PUBLISHED, "STRI, 0.5 kg hammer; links more"),
    "moisture": Aim(BAND, (15, 25), PUBLISHED, "in summer; 25 to 40 % in winter", "in summer"),
    "infiltration": Aim(MORE, mark=COMMON_PRACTICE),
    "green_speed": Aim(MORE, mark=COMMON_PRACTICE),
    "days_kept_off": Aim(LESS, mark=OUR_JUDGEMENT),
}


@dataclass(frozen=True)
class Trend:
    """Change a year with its interval, from ``count`` sets over ``years``; the line ends at ``latest``."""

    per_year: float
    low: float
    high: float
    count: int
    years: float
    latest: float

    @property
    def is_told(self) -> bool:
        """Whether the interval leaves no doubt which way it goes."""
        return self.low > 0 or self.high < 0


@dataclass(frozen=True)
class Along:
    """The line on one day, and the band in which the mean of such sets lies on it."""

    on: date
    mean: float
    low: float
    high: float


@dataclass(frozen=True)
class _Line:
    """A line of least squares: ``scatter`` is the standard deviation about it, ``spread`` of x its sum of
    squares about ``middle``."""

    slope: float
    start: float
    scatter: float
    middle: float
    spread: float
    count: int

    @property
    def slope_error(self) -> float:
        return self.scatter / sqrt(self.spread)

    def error_at(self, x: float) -> float:
        """Standard error of the mean on the line at ``x``."""
        return self.scatter * sqrt(1 / self.count + (x - self.middle) ** 2 / self.spread)

    def times_t(self, error: float, confidence: float) -> float:
        return t_quantile((1 + confidence) / 2, self.count - 2) * error


def trend(points: Sequence[tuple[date, float]], confidence: float = CONFIDENCE) -> Trend | None:
    """The line of least squares through sets of readings; None where there are too few, or too near.

    Parameters
    ----------
    points : day and mean of each set, in any order.
    confidence : of the interval of the slope, two-sided.

    Source: NIST/SEMATECH e-Handbook of Statistical Methods, 4.4.3 (least squares) and 4.4.4.2; the slope and
    its standard error are those of scipy's linregress.
    """
    if not _tells(points):
        return None
    line, last = _through(points), _years_since_first(points)(max(on for on, _ in points))
    half = line.times_t(line.slope_error, confidence)
    latest = line.start + line.slope * last
    return Trend(line.slope, line.slope - half, line.slope + half, len(points), last, latest)


def along(
    points: Sequence[tuple[date, float]], days: Iterable[date], confidence: float = CONFIDENCE
) -> list[Along]:
    """The same line on these days with the band of its mean; nothing where :func:`trend` tells nothing.

    Parameters
    ----------
    points : day and mean of each set, in any order.
    confidence : with which the band holds the mean on each single day, two-sided.

    Source: NIST/SEMATECH e-Handbook of Statistical Methods, 4.5.1.1 (the average response; section from
    memory): Student's t times s √(1/n + (x − x̄)²/Σ(x − x̄)²). Tested against the same in matrices and scipy.
    """
    if not _tells(points):
        return []
    line, years = _through(points), _years_since_first(points)
    return [_along(line, on, years(on), confidence) for on in days]


def _along(line: _Line, on: date, x: float, confidence: float) -> Along:
    mean, half = line.start + line.slope * x, line.times_t(line.error_at(x), confidence)
    return Along(on, mean, mean - half, mean + half)


def _tells(points: Sequence[tuple[date, float]]) -> bool:
    days = [on for on, _ in points]
    return len(days) >= LEAST_POINTS and (max(days) - min(days)).days >= LEAST_DAYS


def _years_since_first(points: Sequence[tuple[date, float]]) -> Callable[[date], float]:
    first = min(on for on, _ in points)
    return lambda on: (on - first).days / DAYS_A_YEAR


def _through(points: Sequence[tuple[date, float]]) -> _Line:
    """The line over the years since the first set."""
    years = _years_since_first(points)
    x, y = [years(on) for on, _ in points], [value for _, value in points]
    middle, height = fmean(x), fmean(y)
    spread = sum((one - middle) ** 2 for one in x)
    slope = sum((a - middle) * (b - height) for a, b in zip(x, y, strict=True)) / spread
    start = height - slope * middle
    left = sum((b - start - slope * a) ** 2 for a, b in zip(x, y, strict=True))
    return _Line(slope, start, sqrt(left / (len(x) - 2)), middle, spread, len(x))


def judge(measure: str, found: Trend | None) -> str:
    """:data:`BETTER`, :data:`WORSE`, :data:`STEADY` where no change can be told, :data:`UNKNOWN` without a
    trend or an aim."""
    aim = AIMS.get(measure)
    if found is None or aim is None:
        return UNKNOWN
    if not found.is_told:
        return STEADY
    if aim.towards == BAND:
        return _towards_band(found, aim.band)
    return BETTER if (found.per_year > 0) == (aim.towards == MORE) else WORSE


def _towards_band(found: Trend, band: tuple[float, float]) -> str:
    low, high = band
    if low <= found.latest <= high:
        return STEADY
    is_below = found.latest < low
    return BETTER if (found.per_year > 0) == is_below else WORSE


def sentence(words: str, unit: str, measure: str, found: Trend | None) -> str:
    """ "Hardness: better. It rises by 4 gravities a year (2 to 6 gravities), over 2.1 years …"."""
    if found is None:
        return f"{words}: not known. It takes {_WANTED} to tell anything of years."
    which = judge(measure, found)
    rest = f"over {amount(found.years)} years and {found.count} sets; now about {amount(found.latest, unit)}."
    if not found.is_told:
        return f"{words}: no change can be told, {rest}"
    goes = "rises" if found.per_year > 0 else "falls"
    near, far = sorted((abs(found.low), abs(found.high)))
    by = f"by {amount(abs(found.per_year), unit)} a year ({amount(near)} to {amount(far, unit)})"
    named = {BETTER: "better", WORSE: "worse", STEADY: "as it should be"}.get(which, "changes")
    return f"{words}: {named}. It {goes} {by}, {rest}"


def in_sum(judged: Iterable[tuple[str, str, str]]) -> str:
    """Whether the surface gets better, in plain words, from (measure, words, judgement) of each.

    "The surface is getting better: less thatch and more infiltration. Neither better nor worse: hardness."
    """
    by_state: dict[str, list[str]] = {BETTER: [], WORSE: [], STEADY: [], UNKNOWN: []}
    for measure, words, which in judged:
        by_state[which].append(_changed(measure, words[:1].lower() + words[1:], which))
    goes, steady = _goes(joined(by_state[BETTER]), joined(by_state[WORSE])), joined(by_state[STEADY])
    if goes:
        return f"{goes} Neither better nor worse: {steady}." if steady else goes
    if steady:
        return f"The surface is neither better nor worse as far as can be told: {steady}."
    return f"Whether the surface gets better is not known: it takes {_WANTED} of one way of measuring."


def _changed(measure: str, words: str, which: str) -> str:
    """ "less thatch", "hardness nearer to where it should be"; the words alone where nothing is told."""
    towards = AIMS[measure].towards
    if which not in (BETTER, WORSE):
        return words
    if towards == BAND:
        return f"{words} {'nearer to' if which == BETTER else 'further from'} where it should be"
    return f"{'more' if (towards == MORE) == (which == BETTER) else 'less'} {words}"


def _goes(better: str, worse: str) -> str:
    if better and worse:
        return f"The surface is getting better in some ways, {better}, and worse in others: {worse}."
    if better:
        return f"The surface is getting better: {better}."
    return f"The surface is getting worse: {worse}." if worse else ""
