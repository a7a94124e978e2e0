"""What a handful of values says, how surely, and how many more would say it better."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import fmean

from growin.agronomy.defaults import OUR_JUDGEMENT, PUBLISHED, Default, table
from growin.agronomy.green_speed import green_speed_from_rolls
from growin.agronomy.intervals import mean_interval, more_readings_for_mean, proportion_interval
from growin.agronomy.measure import SHAPE_HITS, SHAPE_NUMBER, SHAPE_ROLLS, SHAPE_YES_NO, Measure
from growin.agronomy.plain_words import amount, counted

DEFAULTS = table(
    Default("summary.confidence", 0.9, "", "Confidence of the interval shown", 0.5, 0.999, OUR_JUDGEMENT),
    Default(
        "summary.half_width_share",
        0.1,
        "",
        "Half the interval wanted, share of the mean",
        0.01,
        1,
        OUR_JUDGEMENT,
    ),
    Default(
        "summary.doubtful_difference_m",
        0.45,
        "m",
        "Difference of the two ways that makes a green speed doubtful",
        0.1,
        2,
        PUBLISHED,
        "course-rating manual; Brede 1990/91 for slopes",
    ),
)
CONFIDENCE = DEFAULTS["summary.confidence"].value
HALF_WIDTH_SHARE = DEFAULTS["summary.half_width_share"].value
DOUBTFUL_M = DEFAULTS["summary.doubtful_difference_m"].value


@dataclass(frozen=True)
class Summary:
    """A reading in short: ``mean`` (a share from 0 to 1 for answers and frames), ``low`` and ``high``
    as read, ``interval`` of the mean where it can be told, ``more`` values that would narrow it,
    ``doubtful`` when the reading contradicts itself."""

    count: int
    mean: float
    low: float
    high: float
    interval: tuple[float, float] | None
    words: str
    more: int = 0
    doubtful: bool = False


def summarise(
    measure: Measure,
    values: Sequence,
    *,
    confidence: float = CONFIDENCE,
    half_width_share: float = HALF_WIDTH_SHARE,
    doubtful_m: float = DOUBTFUL_M,
) -> Summary:
    """The summary of cleaned ``values`` of one measure.

    ``more`` brings the interval of a mean within ``half_width_share`` of it, if the values to
    come spread like those taken.

    Raises
    ------
    ImpossibleValue
        For a confidence outside 0 to 1.
    """
    if measure.shape == SHAPE_NUMBER:
        return _of_numbers(measure, values, confidence, half_width_share)
    if measure.shape == SHAPE_ROLLS:
        return _of_rolls(values, doubtful_m)
    return _of_shares(measure, values, confidence)


def _of_numbers(measure: Measure, values: Sequence[float], confidence: float, half_share: float) -> Summary:
    mean, count = fmean(values), len(values)
    if measure.largest_decides and count > 1:
        return _of_the_largest(measure, values)
    interval = tuple(mean_interval(confidence, values)) if count > 1 else None
    half_width = half_share * abs(mean)
    more = more_readings_for_mean(values, half_width, confidence) if count > 1 and half_width else 0
    words = f"{amount(mean, measure.unit)} in {counted(count, measure.places_words)}"
    words += "." if measure.usual_count == count == 1 else _doubt(interval, measure.unit, more, half_share)
    return Summary(count, mean, min(values), max(values), interval, words, more)


def _of_the_largest(measure: Measure, values: Sequence[float]) -> Summary:
    """No number of further places makes the worst one better, so none are asked for."""
    mean, largest = fmean(values), max(values)
    words = f"largest {amount(largest, measure.unit)} of {counted(len(values), measure.places_words)}, "
    return Summary(
        len(values), mean, min(values), largest, None, f"{words}mean {amount(mean, measure.unit)}."
    )


def _doubt(interval: tuple[float, float] | None, unit: str, more: int, half_share: float) -> str:
    if interval is None:
        return "; one value is no evidence of the mean."
    span = f", likely {amount(interval[0])} to {amount(interval[1], unit)}"
    closer = f"; {more} more would tell it within {amount(100 * half_share, '%')}" if more else ""
    return f"{span}{closer}."


_COUNTS: dict[str, Callable[[Sequence], list[tuple[int, int]]]] = {
    SHAPE_YES_NO: lambda values: [(int(value), 1) for value in values],
    SHAPE_HITS: lambda values: [(one["hits"], one["points"]) for one in values],
}


def _of_shares(measure: Measure, values: Sequence, confidence: float) -> Summary:
    counts = _COUNTS[measure.shape](values)
    hits, points = (sum(column) for column in zip(*counts, strict=True))
    shares = [hit / of for hit, of in counts]
    interval = tuple(proportion_interval(hits, points, confidence))
    likely = f"likely {amount(100 * interval[0], places=0)} to {amount(100 * interval[1], '%', places=0)}"
    words = f"{_of_words(measure, hits, points, len(values))}, {likely}."
    if measure.shape == SHAPE_YES_NO and measure.usual_count == len(values) == 1:
        words = "yes." if hits else "no."
    return Summary(len(values), hits / points, min(shares), max(shares), interval, words)


def _of_words(measure: Measure, hits: int, points: int, count: int) -> str:
    if measure.shape == SHAPE_YES_NO:
        return f"yes at {hits} of {counted(count, measure.places_words)}"
    share = amount(100 * hits / points, "%")
    return f"{share}, {hits} of {points} points in {counted(count, measure.places_words)}"


def _of_rolls(values: Sequence[dict], doubtful_m: float) -> Summary:
    rolled = [green_speed_from_rolls(one["first"], one["second"]) for one in values]
    speeds = [speed_m for speed_m, _ in rolled]
    apart_m = max(difference_m for _, difference_m in rolled)
    words = f"{amount(fmean(speeds), 'm', places=2)} on {counted(len(values), 'level spots')}"
    doubtful = apart_m > doubtful_m
    if doubtful:
        words += f"; the two ways differ by {amount(apart_m, 'm', places=2)}, which is doubtful"
    return Summary(len(values), fmean(speeds), min(speeds), max(speeds), None, f"{words}.", doubtful=doubtful)


def more_to_settle(values: Sequence[float], limits: Sequence[float], confidence: float, places: str) -> str:
    """How many more values would tell the mean from the nearest limit, as a sentence."""
    gap = min(abs(fmean(values) - limit) for limit in limits)
    if not gap:
        return f"The mean lies on the limit: take more {places}."
    more = max(1, more_readings_for_mean(values, gap, confidence))
    return f"About {counted(more, places)} more would settle it."
