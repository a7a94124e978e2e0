"""Stored photographs and documents of a club."""

from django.db.models import QuerySet, Sum

from greens.models import Club, Green, StoredFile


def of(club: Club) -> QuerySet[StoredFile]:
    return club.files.select_related("by")


def of_green(green: Green) -> QuerySet[StoredFile]:
    return green.files.select_related("by")


def one(club: Club, pk: int) -> StoredFile:
    return of(club).get(pk=pk)


def bytes_kept(club: Club) -> int:
    return club.files.aggregate(total=Sum("size_bytes"))["total"] or 0
