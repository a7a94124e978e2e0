"""A planned opening day against the forecast: when it has slipped past, and when that is worth a word.

The days of warning before a planned day and what counts as worse are our own judgement.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

MARKS = (28, 14, 7, 3)
#: The likely day must move so far later before people are told again.
WORSE_DAYS = 3
FIRST, MARK, WORSE = "first", "mark", "worse"


@dataclass(frozen=True)
class Slip:
    """A planned day and the day on which the green is as likely ready as not; ``likely`` None: beyond all."""

    planned: date
    likely: date | None

    @property
    def has_slipped(self) -> bool:
        """Whether the likely day lies after the planned one."""
        return self.likely is None or self.likely > self.planned

    @property
    def days(self) -> int | None:
        """By how many days; None where the likely day lies beyond all that was looked at."""
        return None if self.likely is None else (self.likely - self.planned).days


def mark_of(planned: date, on: date, marks: Sequence[int] = MARKS) -> int | None:
    """The last of the marks that was reached by a day: on day 13 before, it is 14; None before the first."""
    left = (planned - on).days
    return min((one for one in marks if left <= one), default=None)


def is_worse(now: Slip, before: Slip) -> bool:
    """Whether the likely day has moved later since people were told, by enough to tell them again."""
    if before.likely is None:
        return False
    return now.likely is None or (now.likely - before.likely).days >= WORSE_DAYS


def worth_a_word(now: Slip, on: date, before: Slip | None, told_at: int | None) -> str:
    """Why people are told of a slip: for the first time, at a mark, because it is worse; empty: they are not.

    ``before`` is the slip that they were told last, ``told_at`` the mark that had been reached then.
    """
    if not now.has_slipped or on > now.planned:
        return ""
    if before is None or before.planned != now.planned:
        return FIRST
    if is_worse(now, before):
        return WORSE
    mark = mark_of(now.planned, on)
    return MARK if mark is not None and (told_at is None or mark < told_at) else ""
