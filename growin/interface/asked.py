"""What a program may add to an address, read strictly: what is not understood is refused, never ignored."""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date

from django.core.exceptions import ObjectDoesNotExist
from django.http import Http404, QueryDict

from greens.models import Club
from greens.queries import greens
from growin.agronomy.measures import MEASURES
from growin.agronomy.works import WORKS
from growin.queries.listed import CURSOR, Cursor

DAY, NUMBER, MOST, USUAL = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}"), re.compile(r"[0-9]{1,18}"), 200, 50


class NotUnderstood(Exception):
    """A question that cannot be answered as it was put; the message is for people."""


@dataclass(frozen=True)
class Parameter:
    """One word of a question: ``read(club, text)`` makes it a value or raises ValueError saying what it
    should be."""

    name: str
    words: str
    schema: dict
    read: Callable[[Club, str], object]


def asked(club: Club, query: QueryDict, parameters: Iterable[Parameter]) -> dict[str, object]:
    """Values by name, None where nothing was said. Raises NotUnderstood, or Http404 for no such row."""
    known = {one.name: one for one in parameters}
    for name in query:
        if name not in known:
            may = f"; it knows {', '.join(known)}" if known else ""
            raise NotUnderstood(f"This address does not know “{name[:40]}”{may}.")
        if len(query.getlist(name)) > 1:
            raise NotUnderstood(f"“{name}” is said more than once.")
    return {name: _read(club, one, query.get(name)) for name, one in known.items()}


def _read(club: Club, one: Parameter, text: str | None) -> object:
    if text is None:
        return None
    try:
        return one.read(club, text)
    except ValueError as wanted:
        raise NotUnderstood(f"{one.name} is “{text[:40]}”; it should be {wanted}.") from None


def _day(club: Club, text: str) -> date:
    try:
        return date.fromisoformat(text if DAY.fullmatch(text) else "")
    except ValueError:
        raise ValueError("a day such as 2026-04-16") from None


def _limit(club: Club, text: str) -> int:
    if not NUMBER.fullmatch(text) or not 1 <= int(text) <= MOST:
        raise ValueError(f"a whole number from 1 to {MOST}")
    return int(text)


def _cursor(club: Club, text: str) -> Cursor:
    if not re.fullmatch(CURSOR, text, re.ASCII) or text.endswith("\n"):
        raise ValueError("what the answer before gave as “next”")
    return Cursor.read(text)


def _green(club: Club, text: str):
    if not NUMBER.fullmatch(text):
        raise ValueError("the id of a green")
    try:
        return greens.one(club, int(text))
    except ObjectDoesNotExist:
        raise Http404(f"There is no green {text} in this club.") from None


def _one_of(words: Iterable[str]) -> Callable[[Club, str], str]:
    known = list(words)

    def read(club: Club, text: str) -> str:
        if text not in known:
            raise ValueError(f"one of {', '.join(known)}")
        return text

    return read


_A_DAY = {"type": "string", "format": "date"}
SINCE = Parameter("since", "The first day wanted.", _A_DAY, _day)
UNTIL = Parameter("until", "The last day wanted.", _A_DAY, _day)
GREEN = Parameter(
    "green", "Only of this green.", {"type": "integer", "minimum": 0, "maximum": 10**18 - 1}, _green
)
MEASURE = Parameter(
    "measure", "Only this measure.", {"type": "string", "enum": list(MEASURES)}, _one_of(MEASURES)
)
KIND = Parameter("kind", "Only this kind of work.", {"type": "string", "enum": list(WORKS)}, _one_of(WORKS))
LIMIT = Parameter(
    "limit",
    f"How many at once; {USUAL} unless said.",
    {"type": "integer", "minimum": 1, "maximum": MOST},
    _limit,
)
CURSOR_OF_LIST = Parameter(
    "cursor",
    "Where to go on: what the answer before gave as “next”.",
    {"type": "string", "pattern": CURSOR},
    _cursor,
)
#: What every long list knows.
PAGED = (CURSOR_OF_LIST, LIMIT)
