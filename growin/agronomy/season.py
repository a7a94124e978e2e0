"""Seasons of the year and of laying, on either side of the equator.

The trade's dates are northern ("laid September to February", "the first August"); in the
south they stand six months later. Latitude in degrees, south negative; the equator counts north.
"""

from datetime import date

NORTH, SOUTH = "north", "south"
AUTUMN, IN_GROWTH = "autumn", "in growth"
SEASON_WORDS = {AUTUMN: "laid September to February", IN_GROWTH: "laid March to August"}
SEASON_WORDS_SOUTH = {AUTUMN: "laid March to August", IN_GROWTH: "laid September to February"}
_MONTHS_OF_AUTUMN = frozenset({9, 10, 11, 12, 1, 2})


def hemisphere(latitude_deg: float) -> str:
    """:data:`NORTH` or :data:`SOUTH`; the equator counts as north."""
    return SOUTH if latitude_deg < 0 else NORTH


def northern_month(month: int, latitude_deg: float) -> int:
    """The northern month of the same season: in the south April (4) is the trade's October (10).

    The mirror is its own inverse, so the same call turns a northern month into the local one.
    """
    return month if hemisphere(latitude_deg) == NORTH else (month + 5) % 12 + 1


def season_of_laying(day: date, latitude_deg: float) -> str:
    """:data:`AUTUMN` for September to February, :data:`IN_GROWTH` for March to August, mirrored south."""
    return AUTUMN if northern_month(day.month, latitude_deg) in _MONTHS_OF_AUTUMN else IN_GROWTH


def season_words(season: str, latitude_deg: float) -> str:
    """The season of laying with its months as they are where the green lies."""
    words = SEASON_WORDS if hemisphere(latitude_deg) == NORTH else SEASON_WORDS_SOUTH
    return words[season]


def local_day(year: int, month: int, day: int, latitude_deg: float) -> date:
    """A northern calendar day in ``year``, mirrored by six months in the south (1 April → 1 October)."""
    return date(year, northern_month(month, latitude_deg), day)


def next_local_day(after: date, month: int, day: int, latitude_deg: float) -> date:
    """The first such northern day on or after ``after``, mirrored south."""
    this_year = local_day(after.year, month, day, latitude_deg)
    return this_year if this_year >= after else local_day(after.year + 1, month, day, latitude_deg)


def first_april(after: date, latitude_deg: float) -> date:
    """The first 1 April on or after a day; 1 October in the south."""
    return next_local_day(after, 4, 1, latitude_deg)


def first_august(after: date, latitude_deg: float) -> date:
    """The first 1 August on or after a day, when coring may begin; 1 February in the south."""
    return next_local_day(after, 8, 1, latitude_deg)


def in_winter(day: date, latitude_deg: float) -> bool:
    """Whether a day lies in December, January or February; June to August in the south."""
    return northern_month(day.month, latitude_deg) in {12, 1, 2}


def year_start(day: date, latitude_deg: float) -> date:
    """The midwinter from which a year of growth is counted: 1 January, 1 July in the south."""
    start = local_day(day.year, 1, 1, latitude_deg)
    return start if start <= day else start.replace(year=start.year - 1)
