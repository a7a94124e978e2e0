"""Kinds of diary entry: what each is called, what it may say, what it is careful about.

Which kinds there are, and what each has to say, follows the trade's practice for a
rebuilt green from the digging to play; bounds are those of the tool or the arithmetic,
wide enough for any record, so that only the impossible is refused.
"""

from collections.abc import Mapping
from datetime import date

from growin.agronomy import works_around as around
from growin.agronomy import works_on_turf as on_turf
from growin.agronomy.fields import DetailError, Field, clean_fields, still_wanted
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.plain_words import dated
from growin.agronomy.work import Work

__all__ = [
    "FAMILIES",
    "WATCHED",
    "WITH_PRODUCT",
    "WORKS",
    "DetailError",
    "Field",
    "Work",
    "check_day",
    "check_details",
    "missing_details",
    "stopped_by_weather",
    "work_of",
]

WATCHED = around.WATCHED

FAMILIES = {
    "surface": "Cutting and surface",
    "growth": "Feeding and seed",
    "water": "Water",
    "repair": "Repair and settling",
    "health": "Health",
    "play": "Play and protection",
    "look": "Walks and notes",
    "build": "Building",
}

WORKS: dict[str, Work] = {
    one.key: one
    for one in (
        *on_turf.SURFACE,
        *on_turf.GROWTH,
        *on_turf.WATER,
        *around.REPAIR,
        *around.HEALTH,
        *around.PLAY,
        *around.LOOK,
        *around.BUILD,
    )
}
#: Kinds whose entry may name what was put on.
WITH_PRODUCT = tuple(key for key, work in WORKS.items() if work.takes_product)


#: Families whose work frost, rain or wind can stop, and what of them they cannot (common practice).
_OUT_OF_DOORS = frozenset({"surface", "growth", "water", "repair"})
_NEVERTHELESS = frozenset({"mower_set", "defect"})


def stopped_by_weather(key: str) -> bool:
    """Whether weather can keep anybody from this kind of work: a feed yes, a walk or a mended rope no."""
    return key == "spray" or (WORKS[key].family in _OUT_OF_DOORS and key not in _NEVERTHELESS)


def work_of(key: str) -> Work:
    """The kind of entry called ``key``.

    Raises
    ------
    ImpossibleValue
        When there is no such kind.
    """
    if key not in WORKS:
        raise ImpossibleValue("kind of entry", f"“{key}”", "one of: " + ", ".join(WORKS))
    return WORKS[key]


def check_details(work: Work | str, details: Mapping) -> dict:
    """The details of one entry, cleaned for storing; the one judge of what is possible.

    Numbers come back as numbers, times as HH:MM, dates as ISO text, empty ones are left out.

    Raises
    ------
    ImpossibleValue
        When there is no such kind of entry.
    DetailError
        With one sentence for every detail that cannot be.
    """
    kind = work_of(work) if isinstance(work, str) else work
    return clean_fields(kind.fields, details)


def missing_details(work: Work, details: Mapping) -> tuple[Field, ...]:
    """What a full record would still hold: asked for, never a reason to refuse."""
    return still_wanted(work.fields, details)


def check_day(
    words: str,
    on: date,
    *,
    today: date,
    needs_turf: bool = False,
    established_on: date | None = None,
    building_from: date | None = None,
) -> None:
    """Refuse a day on which this cannot have happened; ``words`` names the work or measure.

    Nothing happens after ``today`` or before ``building_from``; what needs turf not before
    ``established_on``, the day of laying or sowing (None: not yet).

    Raises
    ------
    ImpossibleValue
        With the day given and the days that would be right.
    """
    if on > today:
        raise ImpossibleValue(f"day of “{words}”", dated(on), f"today, {dated(today)}, or before")
    if needs_turf and (established_on is None or on < established_on):
        raise ImpossibleValue(f"day of “{words}”", dated(on), _after_laying(established_on))
    if building_from is not None and on < building_from:
        right = f"from the start of construction, {dated(building_from)}, on"
        raise ImpossibleValue(f"day of “{words}”", dated(on), right)


def _after_laying(established_on: date | None) -> str:
    if established_on is None:
        return "after laying or sowing, which has no date yet"
    return f"from laying or sowing, {dated(established_on)}, on"
