"""Sets of readings of a club."""

from django.db.models import QuerySet

from greens.models import Club, Establishment, Green, ReadingSet


def of(club: Club) -> QuerySet[ReadingSet]:
    """Sets that count: not taken back, newest first."""
    return club.reading_sets.filter(taken_back_at=None).select_related("green", "taken_by")


def one(club: Club, pk: int) -> ReadingSet:
    """Any set of the club, also one that was taken back."""
    return club.reading_sets.select_related("green", "taken_by", "logged_by").get(pk=pk)


def on_green(green: Green) -> QuerySet[ReadingSet]:
    return green.reading_sets.filter(taken_back_at=None).select_related("taken_by")


def of_establishment(establishment: Establishment) -> QuerySet[ReadingSet]:
    return establishment.reading_sets.filter(taken_back_at=None).select_related("taken_by")
