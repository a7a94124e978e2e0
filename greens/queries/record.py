"""The record of a build, always by way of its club."""

from django.db.models import QuerySet

from greens.models import Advice, Club, Defect, Establishment, Green, Material


def establishment(club: Club, pk: int) -> Establishment:
    """Raises Establishment.DoesNotExist when it is not this club's."""
    return Establishment.objects.select_related("green").get(green__club=club, pk=pk)


def with_build(club: Club, pk: int) -> Establishment:
    """The establishment with everything its pages and its judgement read, in a fixed number of queries."""
    return (
        Establishment.objects.filter(green__club=club)
        .select_related("green", "irrigation", "turf", "turf__soil")
        .prefetch_related("layers__material", "drains", "seed_lines", "defects")
        .get(pk=pk)
    )


def materials(club: Club) -> QuerySet[Material]:
    return club.materials.all()


def material(club: Club, pk: int) -> Material:
    return materials(club).get(pk=pk)


def defect(club: Club, pk: int) -> Defect:
    return Defect.objects.select_related("establishment__green").get(establishment__green__club=club, pk=pk)


def advice_on(green: Green) -> QuerySet[Advice]:
    """Advice on a green, newest first."""
    return green.advice.select_related("by")
