"""One detail of an entry or a reading: what it is called, what it may hold, how it is cleaned.

Form, queue, import and interface all clean through :func:`clean_fields`, so that a value
refused in one of them is refused in all.
"""

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from growin.agronomy.impossible import ImpossibleValue, describe_range

NUMBER, CHOICE, TEXT, YES_NO, TIME, DATE = "number", "choice", "text", "yesno", "time", "date"
TEXT_LIMIT = 2000
_YES, _NO = {"yes", "true", "on", "1", "y"}, {"no", "false", "off", "0", "n"}
_CLOCK = re.compile(r"([01]?\d|2[0-3]):([0-5]\d)")


@dataclass(frozen=True)
class Field:
    """One detail.

    ``kind`` is ``number``, ``choice``, ``text``, ``yesno``, ``time`` (HH:MM) or ``date`` (ISO).
    ``low`` and ``high`` bound what can be, in ``unit``; ``step`` is that of the plus and minus
    keys and refuses nothing. ``choices`` pairs a stored word with the word shown.
    ``required`` is refused when missing; ``wanted`` is asked for again, never refused.
    """

    key: str
    words: str
    kind: str = TEXT
    unit: str = ""
    low: float | None = None
    high: float | None = None
    step: float | None = None
    choices: tuple[tuple[str, str], ...] = ()
    required: bool = False
    wanted: bool = False
    whole: bool = False

    @property
    def label(self) -> str:
        """Words and unit: "Depth, mm"."""
        return f"{self.words}, {self.unit}" if self.unit else self.words

    def shown(self, value) -> str:
        """A cleaned value as people read it: "9.5 mm", "hollow tines", "yes"."""
        if self.kind == YES_NO:
            return "yes" if value else "no"
        if self.kind == NUMBER:
            return f"{value:g} {self.unit}".strip()
        return dict(self.choices).get(value, str(value))

    def short(self, value) -> str:
        """A cleaned value for a line of others: "9.5 mm", "boxes off", "scalped anywhere: no"."""
        if self.kind == NUMBER and self.unit or self.kind in (TEXT, DATE, TIME):
            return self.shown(value)
        joint = ": " if self.kind in (YES_NO, NUMBER) else " "
        return f"{self.words.lower()}{joint}{self.shown(value)}"


class DetailError(ValueError):
    """Details that cannot be kept; ``errors`` holds one sentence for each field key."""

    def __init__(self, errors: Mapping[str, str]):
        self.errors = dict(errors)
        super().__init__(" ".join(self.errors.values()))


def is_empty(value) -> bool:
    """Whether nothing was given: None, or words of blanks only."""
    return value is None or (isinstance(value, str) and not value.strip())


def as_number(what: str, value, low: float | None = None, high: float | None = None, *, whole=False):
    """A number inside ``low``..``high``; whole numbers come back as ``int``.

    Raises
    ------
    ImpossibleValue
        For letters, yes/no, infinities, parts of a whole and numbers outside the range.
    """
    lowest = -math.inf if low is None else low
    highest = math.inf if high is None else high
    right = describe_range(lowest, highest)
    number = _float(what, value, right)
    if not lowest <= number <= highest or not math.isfinite(number):
        raise ImpossibleValue(what, f"{number:g}", right)
    if whole and number != int(number):
        raise ImpossibleValue(what, f"{number:g}", _of_kind("a whole number", right))
    return int(number) if whole else number


def _float(what: str, value, right: str) -> float:
    wanted = _of_kind("a number", right)
    if isinstance(value, bool):
        raise ImpossibleValue(what, "yes" if value else "no", wanted)
    try:
        return float(value)
    except (TypeError, ValueError, OverflowError):
        raise ImpossibleValue(what, f"“{_short(value)}”", wanted) from None


def _of_kind(kind: str, right: str) -> str:
    """Kind and range, as in "a whole number from 0 to 5"; the kind alone where every number is right."""
    return kind if right == "a number" else f"{kind} {right}"


def as_yes_no(what: str, value) -> bool:
    """True or False from a tick, a word or 1/0.

    Raises
    ------
    ImpossibleValue
        For anything else.
    """
    word = str(value).strip().lower()
    if word in _YES | _NO:
        return word in _YES
    raise ImpossibleValue(what, f"“{_short(value)}”", "yes or no")


def _short(value) -> str:
    shown = str(value).strip()
    return shown if len(shown) <= 40 else f"{shown[:39]}…"


def _as_choice(field: Field, value) -> str:
    word = str(value).strip()
    if word in dict(field.choices):
        return word
    right = "one of: " + ", ".join(shown for _, shown in field.choices)
    raise ImpossibleValue(field.label, f"“{_short(value)}”", right)


def _as_text(field: Field, value) -> str:
    words = str(value).replace("\x00", "").strip()
    if len(words) > TEXT_LIMIT:
        raise ImpossibleValue(field.label, f"a text of {len(words)} letters", f"at most {TEXT_LIMIT}")
    return words


def _as_time(field: Field, value) -> str:
    found = _CLOCK.fullmatch(str(value).strip()[:5])
    if found is None:
        raise ImpossibleValue(field.label, f"“{_short(value)}”", "a time of day such as 08:30")
    return f"{int(found[1]):02d}:{found[2]}"


def _as_date(field: Field, value) -> str:
    try:
        return date.fromisoformat(str(value).strip()[:10]).isoformat()
    except ValueError:
        right = "a date such as 2026-04-16"
        raise ImpossibleValue(field.label, f"“{_short(value)}”", right) from None


def _as_field_number(field: Field, value):
    return as_number(field.label, value, field.low, field.high, whole=field.whole)


_CLEANERS = {
    NUMBER: _as_field_number,
    CHOICE: _as_choice,
    TEXT: _as_text,
    YES_NO: lambda field, value: as_yes_no(field.label, value),
    TIME: _as_time,
    DATE: _as_date,
}


def clean_field(field: Field, value):
    """One value of ``field``, ready to be stored as JSON.

    Raises
    ------
    ImpossibleValue
        When the value cannot be.
    """
    return _CLEANERS[field.kind](field, value)


def clean_fields(fields: Iterable[Field], given: Mapping) -> dict:
    """All of ``given`` that holds something, cleaned, in the order of ``fields``.

    Raises
    ------
    DetailError
        With a sentence for every field that cannot be kept, is missing or is not known.
    """
    by_key = {field.key: field for field in fields}
    errors = {key: f"{_short(key)} is not a detail of this kind." for key in given if key not in by_key}
    cleaned: dict = {}
    for key, field in by_key.items():
        _clean_into(cleaned, errors, field, given.get(key))
    if errors:
        raise DetailError(errors)
    return cleaned


def _clean_into(cleaned: dict, errors: dict, field: Field, value) -> None:
    if is_empty(value):
        if field.required:
            errors[field.key] = f"{field.words} is missing."
        return
    try:
        cleaned[field.key] = clean_field(field, value)
    except ImpossibleValue as refused:
        errors[field.key] = str(refused)


def still_wanted(fields: Iterable[Field], details: Mapping) -> tuple[Field, ...]:
    """The fields that a full record would hold and ``details`` does not."""
    return tuple(one for one in fields if one.wanted and is_empty(details.get(one.key)))
