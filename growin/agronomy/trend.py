"""Whether something on a green gets better over the years: a straight line, its interval, a plain sentence.

What is better for a measure stands in a table: less of it, more of it, or the way into a band. A change is
told only where the interval of the slope leaves nothing out.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt
from statistics import fmean

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT, PUBLISHED
from growin.agronomy.plain_words import amount
from growin.agronomy.student import t_quantile

DAYS_A_YEAR = 365.25
#: Fewer sets, or a shorter span, tell nothing of years (our judgement).
LEAST_POINTS, LEAST_DAYS = 4, 180
CONFIDENCE = 0.9
BETTER, WORSE, STEADY, UNKNOWN = "better", "worse", "no change", "not known"
LESS, MORE, BAND = "less", "more", "band"


@dataclass(frozen=True)
class Aim:
    """What is better for a measure; ``band`` where it should lie between two figures."""

    towards: str
    band: tuple[float, float] | None = None
    mark: str = OUR_JUDGEMENT
    source: str = ""


AIMS: Mapping[str, Aim] = {
    "poa_share": Aim(LESS, mark=COMMON_PRACTICE),
    "organic_matter": Aim(
        LESS, mark=PUBLISHED, source="STRI 2010: under 6 % at 0–20 mm, under 4 % at 20–40 mm"
    ),
    "thatch_depth": Aim(LESS, mark=COMMON_PRACTICE),
    "hardness": Aim(BAND, (80, 100), PUBLISHED, "STRI, 0.5 kg hammer; links more"),
    "moisture": Aim(BAND, (15, 25), PUBLISHED, "in summer; 25 to 40 % in winter"),
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


def trend(points: Sequence[tuple[date, float]], confidence: float = CONFIDENCE) -> Trend | None:
    """The line of least squares through sets of readings; None where there are too few, or too near.

    Parameters
    ----------
    points : day and mean of each set, in any order.
    confidence : of the interval of the slope, two-sided.

    Source: NIST/SEMATECH e-Handbook of Statistical Methods, 4.4.3 (least squares) and 4.4.4.2; the slope and
    its standard error are those of scipy's linregress.
    """
    if len(points) < LEAST_POINTS:
        return None
    first = min(on for on, _ in points)
    years = [(on - first).days / DAYS_A_YEAR for on, _ in points]
    if max(years) * DAYS_A_YEAR < LEAST_DAYS:
        return None
    values = [value for _, value in points]
    slope, start, error = _line(years, values)
    half = t_quantile((1 + confidence) / 2, len(points) - 2) * error
    return Trend(slope, slope - half, slope + half, len(points), max(years), start + slope * max(years))


def _line(x: Sequence[float], y: Sequence[float]) -> tuple[float, float, float]:
    """Slope, value at nothing, and standard error of the slope."""
    middle_x, middle_y = fmean(x), fmean(y)
    spread = sum((one - middle_x) ** 2 for one in x)
    slope = sum((a - middle_x) * (b - middle_y) for a, b in zip(x, y, strict=True)) / spread
    start = middle_y - slope * middle_x
    left = sum((b - start - slope * a) ** 2 for a, b in zip(x, y, strict=True))
    return slope, start, sqrt(left / (len(x) - 2) / spread)


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
    """ "Hardness: better. It rises by 4 gravities a year (2 to 6), over 2.1 years and 14 sets; now …"."""
    if found is None:
        wants = f"{LEAST_POINTS} sets over {LEAST_DAYS} days"
        return f"{words}: not known. It takes {wants} to tell anything of years."
    which = judge(measure, found)
    rest = f"over {amount(found.years)} years and {found.count} sets; now about {amount(found.latest, unit)}."
    if not found.is_told:
        return f"{words}: no change can be told, {rest}"
    goes = "rises" if found.per_year > 0 else "falls"
    near, far = sorted((abs(found.low), abs(found.high)))
    by = f"by {amount(abs(found.per_year), unit)} a year ({amount(near)} to {amount(far)})"
    named = {BETTER: "better", WORSE: "worse", STEADY: "as it should be"}.get(which, "changes")
    return f"{words}: {named}. It {goes} {by}, {rest}"
