"""The record of changes of a club."""

from django.db.models import QuerySet

from greens.models import Club, Green, TrailLine


def of(club: Club) -> QuerySet[TrailLine]:
    return club.trail.select_related("by", "green")


def of_green(green: Green) -> QuerySet[TrailLine]:
    return of(green.club).filter(green=green)
