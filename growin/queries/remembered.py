"""What was worked out of a club's record, for as long as nothing in the record changes.

Every write leaves a line in the record of changes, and every line gives the club a new mark; what was
worked out under an older mark is never looked at again. Most lines of a day are entries, readings and
answers: what hangs on none of those is kept under a mark that they leave alone. Inside a transaction
nothing is remembered, since what is seen there may yet be undone.
"""

import hashlib
from collections.abc import Callable, Iterable, Mapping
from functools import wraps
from typing import TypeVar

from django.core.cache import cache
from django.db import connection
from django.db.models import Model

from greens.models import Club, Establishment, Green

T = TypeVar("T")
#: A process that dies between keeping a change and marking it leaves old answers for so long at most.
LONGEST_S = 600
_UNKNOWN = object()
WHOLE, FRAME = "trail_mark", "frame_mark"
#: Every read that is kept under the mark of the frame.
OF_THE_FRAME: set[str] = set()


def remembered(club: Club, what: tuple, work: Callable[[], T], mark: str = WHOLE) -> T:
    """What ``work`` makes of the club's record as it stands; ``what`` names it, its day among the words."""
    if connection.in_atomic_block:
        return work()
    key = f"worked-out:{digest_under(club, what, mark)}"
    found = cache.get(key, _UNKNOWN)
    if found is _UNKNOWN:
        found = work()
        cache.set(key, found, LONGEST_S)
    return found


def digest_under(club: Club, what: tuple, mark: str = WHOLE) -> str:
    """A name for what is worked out of the club's record as it stands; another after every change."""
    return hashlib.sha256(repr((club.pk, getattr(club, mark), *what)).encode()).hexdigest()


def kept_while_unchanged(ask: Callable[..., T], mark: str = WHOLE) -> Callable[..., T]:
    """Remember what a read answers for a club, a green or a rebuild (its first argument).

    Its other arguments are rows, plain values, mappings of them, or rows in a list.
    """

    @wraps(ask)
    def asked(of: Club | Green | Establishment, *more, **named) -> T:
        what = (ask.__module__, ask.__qualname__, name_of(of), *map(name_of, more), name_of(named))
        return remembered(club_of(of), what, lambda: ask(of, *more, **named), mark)

    return asked


def kept_while_the_frame_stands(ask: Callable[..., T]) -> Callable[..., T]:
    """The same for a read that looks at nothing of what is logged day by day."""
    asked = kept_while_unchanged(ask, FRAME)
    OF_THE_FRAME.add(f"{ask.__module__}.{ask.__qualname__}")
    return asked


def club_of(row: Club | Green | Establishment) -> Club:
    if isinstance(row, Club):
        return row
    return row.club if isinstance(row, Green) else row.green.club


def name_of(value):
    """What tells an argument from another in a key."""
    if isinstance(value, Model):
        return value._meta.label, value.pk
    if isinstance(value, Mapping):
        return [(key, name_of(one)) for key, one in value.items()]
    if isinstance(value, Iterable) and not isinstance(value, str):
        return [name_of(one) for one in value]
    return value
