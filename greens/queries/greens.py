"""Greens of a club."""

from collections.abc import Iterable
from datetime import date

from django.db.models import QuerySet

from greens.models import Area, Club, Establishment, Green


def of(club: Club) -> QuerySet[Green]:
    return club.greens.order_by("position", "name")


def one(club: Club, pk: int) -> Green:
    """Raises Green.DoesNotExist when the green is not this club's."""
    return of(club).get(pk=pk)


def named(club: Club, name: str) -> QuerySet[Green]:
    """Greens of that name, however it is written."""
    return of(club).filter(name__iexact=name)


def current_establishment(green: Green) -> Establishment | None:
    """The newest rebuild of the green, or none yet."""
    return green.establishments.order_by("-number").first()


def current_establishments(club: Club) -> dict[int, Establishment]:
    """The newest rebuild of each green that has one, by the green's id; one query."""
    rows = Establishment.objects.filter(green__club=club).order_by("number").select_related("green")
    return {row.green_id: row for row in rows}


def laid_establishments(club: Club, on: date) -> list[Establishment]:
    """The newest rebuild of each green that was laid or sown by a day, in order; one query."""
    rows = [one for one in current_establishments(club).values() if one.established_on]
    for one in rows:
        one.green.club = club
    return sorted((one for one in rows if one.established_on <= on), key=lambda one: one.green.position)


def establishments_of(club: Club, green: Green | None = None) -> QuerySet[Establishment]:
    """Every rebuild of a club, or of one of its greens."""
    rows = Establishment.objects.filter(green__club=club)
    return rows.filter(green=green) if green else rows


def establishment_on(green: Green, on: date) -> Establishment | None:
    """The rebuild whose works had begun by that day, or none."""
    return green.establishments.filter(works_started_on__lte=on).order_by("-number").first()


def first_establishment(green: Green) -> Establishment | None:
    """The first rebuild on record."""
    return green.establishments.order_by("number").first()


def establishments_on(greens: Iterable[Green], on: date) -> dict[int, Establishment]:
    """For each green the rebuild whose works had begun by that day, else its first one; one query."""
    rows = Establishment.objects.filter(green__in=greens).order_by("number")
    found: dict[int, Establishment] = {}
    for row in rows:
        if row.works_started_on <= on or row.green_id not in found:
            found[row.green_id] = row
    return found


def areas_on(greens: Iterable[Green], on: date) -> dict[int, int]:
    """dm² of each green as it was measured by that day, else as it is known now; one query."""
    rows = Area.objects.filter(green__in=greens, part="", measured_on__lte=on)
    measured = dict(rows.order_by("measured_on", "pk").values_list("green_id", "area_dm2"))
    return {green.pk: green.area_dm2 for green in greens if green.area_dm2} | measured
