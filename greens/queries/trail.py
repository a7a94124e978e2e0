"""The record of changes of a club."""

from collections.abc import Iterable
from datetime import datetime

from django.db.models import Count, Max, QuerySet

from greens.models import Club, Green, TrailLine


def of(club: Club) -> QuerySet[TrailLine]:
    return club.trail.select_related("by", "green")


def of_green(green: Green) -> QuerySet[TrailLine]:
    return of(green.club).filter(green=green)


def times_changed(club: Club, noun: str, pks: Iterable[int]) -> dict[int, tuple[int, datetime]]:
    """How many lines tell of each of these rows, and when the last was written; one query."""
    rows = club.trail.filter(noun=noun, noun_pk__in=list(pks)).order_by().values_list("noun_pk")
    return {pk: (count, last) for pk, count, last in rows.annotate(Count("pk"), Max("at"))}
