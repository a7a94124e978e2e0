"""What the weather on record says to whoever looks after greens: frost, heat, long wet."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT, Default, table
from growin.agronomy.plain_words import amount, day

FROST, HEAT, WET = "frost", "heat", "wet"
WEEK = timedelta(days=7)

DEFAULTS = table(
    Default("flag.heat_c", 28, "°C", "Highest temperature that counts as heat", 15, 45, OUR_JUDGEMENT),
    Default("flag.heat_days", 2, "days", "Hot days near each other worth a word", 1, 14, OUR_JUDGEMENT),
    Default("flag.wet_week_mm", 60, "mm", "Rain of a week that counts as long wet", 10, 500, OUR_JUDGEMENT),
    Default(
        "flag.quiet_days",
        7,
        "days",
        "Days without the like before it is worth a word again",
        1,
        60,
        COMMON_PRACTICE,
    ),
)  # fmt: skip


@dataclass(frozen=True)
class DayOnRecord:
    """One measured day; what was not measured is None."""

    on: date
    min_c: float | None = None
    max_c: float | None = None
    rain_mm: float | None = None


@dataclass(frozen=True)
class Flag:
    """``kind`` is frost, heat or wet; ``since`` the first day of the run that it belongs to."""

    kind: str
    since: date
    words: str
    text: str


_TEXTS = {
    FROST: "Keep feet, machines and play off while leaf or ground is white, and in a thaw until a probe "
    "finds no frozen layer to rooting depth. Frost is a daily closure, whatever was decided.",
    HEAT: "Look at young roots before noon: hand-water dry spots, raise the height rather than cut lower, "
    "rest the green from rolling and sand.",
    WET: "Walk the greens for standing water and look at the drain outlets; keep machines, sand and feed "
    "off until they are firm again.",
}


def flags(
    days: Sequence[DayOnRecord], as_of: date, frost_c: float, settings: Mapping[str, float]
) -> list[Flag]:
    """What has begun by a day and holds on it or the day before: at most one of each kind.

    Parameters
    ----------
    days : measured days, oldest first, a month back or more.
    frost_c : lowest temperature at or under which leaf and ground may be frozen, °C.
    settings : the keys of :data:`DEFAULTS`.
    """
    quiet = timedelta(days=settings["flag.quiet_days"])
    frosts = [one for one in days if one.min_c is not None and one.min_c <= frost_c]
    hot = [one for one in days if one.max_c is not None and one.max_c >= settings["flag.heat_c"]]
    found = [_frost(frosts, quiet), _heat(hot, quiet, settings), _wet(days, as_of, settings)]
    lately = as_of - timedelta(days=1)
    return [flag for flag, last in filter(None, found) if lately <= last <= as_of]


def _run(days: Sequence[DayOnRecord], quiet: timedelta) -> list[DayOnRecord]:
    """The last of these days and those before it with no long quiet between."""
    run: list[DayOnRecord] = []
    for one in reversed(days):
        if run and run[-1].on - one.on > quiet:
            break
        run.append(one)
    return run[::-1]


def _frost(frosts: Sequence[DayOnRecord], quiet: timedelta) -> tuple[Flag, date] | None:
    run = _run(frosts, quiet)
    if not run:
        return None
    coldest = min(one.min_c for one in run)
    words = f"Frost: down to {amount(coldest, '°C')}"
    return Flag(FROST, run[0].on, words, f"First on {day(run[0].on)}. {_TEXTS[FROST]}"), run[-1].on


def _heat(hot: Sequence[DayOnRecord], quiet: timedelta, settings) -> tuple[Flag, date] | None:
    run = _run(hot, quiet)
    if len(run) < settings["flag.heat_days"]:
        return None
    hottest = max(one.max_c for one in run)
    words = f"Heat: up to {amount(hottest, '°C')}"
    return Flag(HEAT, run[0].on, words, f"Since {day(run[0].on)}. {_TEXTS[HEAT]}"), run[-1].on


def _wet(days: Sequence[DayOnRecord], as_of: date, settings) -> tuple[Flag, date] | None:
    """The first day of the run of days whose last seven brought so much."""
    wet = [one.on for one in days if _week_mm(days, one.on) >= settings["flag.wet_week_mm"]]
    if not wet:
        return None
    since, last = _first_of_run(wet), wet[-1]
    words = f"Long wet: {amount(_week_mm(days, last), 'mm', 0)} of rain in seven days"
    return Flag(WET, since, words, f"Since {day(since)}. {_TEXTS[WET]}"), last


def _week_mm(days: Sequence[DayOnRecord], last: date) -> float:
    return sum(one.rain_mm or 0 for one in days if last - WEEK < one.on <= last)


def _first_of_run(wet: Sequence[date]) -> date:
    first = wet[-1]
    for one in reversed(wet):
        if first - one > timedelta(days=1):
            break
        first = one
    return first
