"""The record of a build, always by way of its club."""

from collections.abc import Iterable
from datetime import date

from django.db.models import Min, QuerySet

from greens.models import Advice, Club, Defect, Establishment, Green, Material
from growin.agronomy.measures import MEASURES
from growin.agronomy.works import WORKS


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


def newest_with_build(green: Green) -> Establishment | None:
    """The green's newest rebuild with everything its page reads, or none yet."""
    newest = green.establishments.order_by("-number").values_list("pk", flat=True).first()
    return None if newest is None else with_build(green.club, newest)


def rebuilds(green: Green) -> QuerySet[Establishment]:
    """All rebuilds of a green, newest first."""
    return green.establishments.order_by("-number")


def neighbours(establishment: Establishment) -> tuple[Establishment | None, Establishment | None]:
    """The rebuilds before and after this one of the same green."""
    others = establishment.green.establishments
    before = others.filter(number__lt=establishment.number).order_by("-number").first()
    return before, others.filter(number__gt=establishment.number).order_by("number").first()


def first_on_turf(establishment: Establishment) -> date | None:
    """The first day on which work or a reading was logged that needs turf or seed; two queries."""
    works = [work.key for work in WORKS.values() if work.needs_turf]
    measures = [measure.key for measure in MEASURES.values() if measure.needs_turf]
    worked = establishment.entry_lines.filter(entry__taken_back_at=None, kind__in=works)
    read = establishment.reading_sets.filter(taken_back_at=None, measure__in=measures)
    days = worked.aggregate(first=Min("on"))["first"], read.aggregate(first=Min("on"))["first"]
    return min(filter(None, days), default=None)


def open_defects_first(establishment: Establishment) -> list[Defect]:
    """Defects of a build: those still open by the day they are due, then those put right."""
    rows = establishment.defects.all()
    return sorted(rows, key=lambda row: (row.put_right_on is not None, row.due_on or date.max, row.pk))


def open_defects(establishments: Iterable[Establishment]) -> list[Defect]:
    """Defects of these builds that are not put right, by the day they are due; one query."""
    return list(Defect.objects.filter(establishment__in=establishments, put_right_on=None))


def materials(club: Club) -> QuerySet[Material]:
    return club.materials.all()


def material(club: Club, pk: int) -> Material:
    return materials(club).get(pk=pk)


def defect(club: Club, pk: int) -> Defect:
    return Defect.objects.select_related("establishment__green").get(establishment__green__club=club, pk=pk)


def advice_on(green: Green) -> QuerySet[Advice]:
    """Advice on a green, newest first."""
    return green.advice.select_related("by")
