"""Days, numbers and counts as the screen says them."""

from collections.abc import Sequence
from datetime import date

A_YEAR_DAYS = 366


def day(one: date, beside: date | None = None) -> str:
    """A day as "Thu 16 April"; with the year when it is not that of ``beside``."""
    year = f" {one.year}" if beside is not None and one.year != beside.year else ""
    return f"{one:%a} {one.day} {one:%B}{year}"


def dated(one: date) -> str:
    """A day with its year, whatever the year: "Thu 16 April 2026"."""
    return f"{day(one)} {one.year}"


def for_over_a_year(since: date, on: date) -> str:
    """What lasts so long that its first day says no more; empty before."""
    return "for more than a year" if (on - since).days > A_YEAR_DAYS else ""


def amount(value: float, unit: str = "", places: int = 1) -> str:
    """A number without needless noughts, with its unit: "4 mm", "12.5 %"."""
    shown = f"{value:.{places}f}".rstrip("0").rstrip(".") if places else f"{value:.0f}"
    return f"{'0' if shown == '-0' else shown} {unit}".strip()


def joined(words: Sequence[str]) -> str:
    """Several in a row: "a, b and c"."""
    return " and ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))


def counted(count: int, plural: str) -> str:
    """A count with its noun: "1 core", "5 cores"."""
    return f"{count} {singular(plural)}" if count == 1 else f"{count} {plural}"


def singular(plural: str) -> str:
    """``plural`` for one: "cores" → "core", "days of rain" → "day of rain"."""
    noun, of, rest = plural.partition(" of ")
    if noun.endswith(("ories", "tries")):
        noun = f"{noun.removesuffix('ies')}y"
    return noun.removesuffix("s") + of + rest
