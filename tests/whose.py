"""Whose rows are whose: found by walking from every table to its club, so that a new one is not forgotten."""

from heapq import heappop, heappush

from django.apps import apps
from django.db import models

from greens.models import Club

OURS = ("greens", "growin")
#: Tables of the site, not of a club.
OF_NO_CLUB = {"Attempt", "Club", "Person"}


def tables() -> list[type[models.Model]]:
    return [one for one in apps.get_models() if one._meta.app_label in OURS]


def of_clubs() -> list[type[models.Model]]:
    """Every table whose rows belong to a club."""
    return [one for one in tables() if one is not Club and way_to_club(one)]


def links_of(model: type[models.Model]) -> list[models.ForeignKey]:
    """Columns that name a row of another table."""
    return [one for one in model._meta.concrete_fields if one.is_relation]


def way_to_club(model: type[models.Model]) -> str:
    """How a query says the club of a row, "green__club"; empty where it has none.

    The shortest way over columns that are always filled, if there is any.
    """
    waiting, seen = [(0, "", model)], set()
    while waiting:
        length, way, there = heappop(waiting)
        if there is Club:
            return way
        for link in links_of(there) if there not in seen else ():
            if link.related_model in tables():
                further = length + (100 if link.null else 1)
                heappush(waiting, (further, f"{way}__{link.name}".removeprefix("__"), link.related_model))
        seen.add(there)
    return ""


def rows_of(model: type[models.Model], club: Club) -> models.QuerySet:
    return model.objects.filter(**{way_to_club(model): club})


def written(model: type[models.Model], club: Club) -> list[tuple]:
    """Everything that a table holds of the club."""
    return list(rows_of(model, club).order_by("pk").values_list())


def crossed(model: type[models.Model]) -> list[tuple[str, object]]:
    """Rows that name a row of another club than their own: nothing may ever make one."""
    own = way_to_club(model)
    found = []
    for link in links_of(model):
        theirs = f"{link.name}__{way_to_club(link.related_model)}".removesuffix("__")
        if own == link.name or link.related_model.__name__ in OF_NO_CLUB - {"Club"} or not own:
            continue
        other = model.objects.exclude(**{theirs: models.F(own)}).exclude(**{link.name: None})
        found += [(f"{model.__name__}.{link.name}", pk) for pk in other.values_list("pk", flat=True)]
    return found
