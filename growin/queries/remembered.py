"""What was worked out of a club's record, for as long as nothing in the record changes.

Every write leaves a line in the record of changes, and every line gives the club a new mark; what was
worked out under an older mark is never looked at again. Inside a transaction nothing is remembered,
since what is seen there may yet be undone.
"""

import hashlib
from collections.abc import Callable
from typing import TypeVar

from django.core.cache import cache
from django.db import connection

from greens.models import Club

T = TypeVar("T")
#: A process that dies between keeping a change and marking it leaves old answers for so long at most.
LONGEST_S = 600
_UNKNOWN = object()


def remembered(club: Club, what: tuple, work: Callable[[], T]) -> T:
    """What ``work`` makes of the club's record as it stands; ``what`` names it, its day among the words."""
    if connection.in_atomic_block:
        return work()
    named = repr((club.pk, club.trail_mark, *what)).encode()
    key = f"worked-out:{hashlib.sha256(named).hexdigest()}"
    found = cache.get(key, _UNKNOWN)
    if found is _UNKNOWN:
        found = work()
        cache.set(key, found, LONGEST_S)
    return found
