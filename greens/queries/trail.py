"""The record of changes of a club."""

from collections.abc import Iterable
from datetime import datetime

from django.db.models import Count, Max, Q, QuerySet

from greens.models import Club, Green, TrailLine

LINES_SHOWN = 50


def of(club: Club) -> QuerySet[TrailLine]:
    return club.trail.select_related("by", "green")


def lines_before(club: Club, before: int | None) -> tuple[list[TrailLine], int | None]:
    """The newest lines, or those before a line of the club; and the last of them where older ones follow.

    Nothing is counted: a club of twenty seasons has more lines than a page should look through.
    """
    rows, at = of(club), club.trail.filter(pk=before).values_list("at", flat=True).first() if before else None
    if at is not None:
        rows = rows.filter(Q(at__lt=at) | Q(pk__lt=before), at__lte=at)
    found = list(rows[: LINES_SHOWN + 1])
    return found[:LINES_SHOWN], found[LINES_SHOWN - 1].pk if len(found) > LINES_SHOWN else None


def of_green(green: Green) -> QuerySet[TrailLine]:
    return of(green.club).filter(green=green)


def times_changed(club: Club, noun: str, pks: Iterable[int]) -> dict[int, tuple[int, datetime]]:
    """How many lines tell of each of these rows, and when the last was written; one query."""
    rows = club.trail.filter(noun=noun, noun_pk__in=list(pks)).order_by().values_list("noun_pk")
    return {pk: (count, last) for pk, count, last in rows.annotate(Count("pk"), Max("at"))}
