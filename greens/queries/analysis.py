"""Analyses of soil and water."""

from django.db.models import QuerySet

from greens.models import Analysis, Club, Green


def of_green(green: Green) -> QuerySet[Analysis]:
    """Those that count, the newest first."""
    return green.analyses.filter(taken_back_at=None).select_related("by")


def one(club: Club, pk: int) -> Analysis:
    """Raises Analysis.DoesNotExist when it is not this club's, or was taken back."""
    return Analysis.objects.select_related("green__club").get(green__club=club, taken_back_at=None, pk=pk)
