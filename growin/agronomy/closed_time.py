"""A time of the year in which a club may not feed, by its own rules or the law of its place."""

from datetime import date

from growin.agronomy.impossible import ImpossibleValue

A_LEAP_YEAR = 2000


def read_day(text: str) -> tuple[int, int]:
    """Month and day of "10-15".

    Raises
    ------
    ImpossibleValue
        For what is no day of a year.
    """
    try:
        month, day = (int(part) for part in text.split("-"))
        date(A_LEAP_YEAR, month, day)
    except ValueError:
        raise ImpossibleValue("day of the year", f"“{text}”", "a month and a day such as 10-15") from None
    return month, day


def is_closed(on: date, first: str, last: str) -> bool:
    """Whether a day lies between two days of the year, both included; the span may reach over the new year.

    ``first`` and ``last`` as "10-15"; without both there is no closed time.

    Raises
    ------
    ImpossibleValue
        For what is no day of a year.
    """
    if not first or not last:
        return False
    begins, ends, this = read_day(first), read_day(last), (on.month, on.day)
    return begins <= this <= ends if begins <= ends else this >= begins or this <= ends


def refusal(on: date, first: str, last: str) -> str:
    """What the club's rules say of feeding on a day, as a sentence; empty where they allow it.

    Raises
    ------
    ImpossibleValue
        For what is no day of a year.
    """
    if not is_closed(on, first, last):
        return ""
    return f"By the club's own rules nothing is fed from {span_in_words(first, last)}."


def span_in_words(first: str, last: str) -> str:
    """ "15 October to 31 January"; empty where there is no closed time."""
    return f"{in_words(first)} to {in_words(last)}" if first and last else ""


def in_words(text: str) -> str:
    """ "15 October" for "10-15"; empty for nothing."""
    if not text:
        return ""
    month, day = read_day(text)
    return f"{day} {date(A_LEAP_YEAR, month, day):%B}"
