"""Sums of readings: how sure a mean or a share is and how many more would settle it; speed on a slope."""

from growin.agronomy import intervals
from growin.agronomy.green_speed import green_speed
from growin.agronomy.plain_words import amount, counted
from growin.queries.sums import Answer, NoAnswer, Place

CONFIDENCE = "interval.confidence"


def mean(place: Place, *, values, half_width=None) -> Answer:
    """The mean of some readings, how sure it is, and how many more would bring it close enough."""
    if len(values) < 2:
        raise NoAnswer("values", "One reading says nothing of the mean; give at least 2.")
    confidence, sample = place.settings[CONFIDENCE], intervals.describe(values)
    likely = intervals.mean_interval(confidence, values)
    figures = (
        ("Mean", amount(sample.mean, places=2)),
        ("Likely between", f"{amount(likely.lower, places=2)} and {amount(likely.upper, places=2)}"),
        ("Standard deviation", amount(sample.standard_deviation, places=2)),
    )
    notes = [f"So sure is that: {amount(100 * confidence, '%')}."]
    if half_width:
        more = intervals.more_readings_for_mean(values, float(half_width), confidence)
        notes.append(more_in_words(more, f"the mean within {amount(float(half_width), places=2)}"))
    return Answer(figures, notes=tuple(notes))


def share(place: Place, *, hits, points, least_percent=None) -> Answer:
    """A share of points, how sure it is, and how many more would lift its bound to a wanted share."""
    if hits > points:
        raise NoAnswer("hits", f"{hits:g} hits at {points:g} points cannot be; at most every point is a hit.")
    confidence, counts = place.settings[CONFIDENCE], (int(hits), int(points))
    likely = intervals.proportion_interval(*counts, confidence)
    bound = intervals.proportion_lower_bound(*counts, max(confidence, 0.5))
    figures = (
        ("Share", amount(100 * counts[0] / counts[1], "%")),
        ("Likely between", f"{amount(100 * likely.lower)} and {amount(100 * likely.upper, '%')}"),
        ("Surely above", amount(100 * bound, "%")),
    )
    notes = [f"So sure is that: {amount(100 * confidence, '%')}."]
    if least_percent:
        least = float(least_percent) / 100
        more = intervals.more_readings_for_share(*counts, least, confidence)
        notes.append(more_in_words(more, f"that it is above {amount(float(least_percent), '%')}"))
    return Answer(figures, notes=tuple(notes))


def more_in_words(more: int | None, what: str) -> str:
    """How many more readings, if they turn out like those taken."""
    if more is None:
        return f"If more turn out alike, none will show {what}."
    return f"About {counted(more, 'readings')} more would show {what}." if more else f"Enough to show {what}."


def speed(place: Place, *, uphill_m, downhill_m) -> Answer:
    """What a level green would show, from a roll up and one down."""
    level = green_speed(float(uphill_m), float(downhill_m))
    plain = (float(uphill_m) + float(downhill_m)) / 2
    figures = (("Level speed", amount(level, "m", 2)),)
    return Answer(figures, notes=(f"The plain mean, {amount(plain, 'm', 2)}, would read high on a slope.",))
