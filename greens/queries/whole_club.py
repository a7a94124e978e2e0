"""Every table that holds rows of a club, found from the tables themselves: a new one is not forgotten."""

from collections.abc import Iterator
from functools import cache
from graphlib import TopologicalSorter
from heapq import heappop, heappush

from django.apps import apps
from django.db.models import ForeignKey, Model, QuerySet

from greens.models import Club

Table = type[Model]
APPS = ("greens", "growin")
#: A way over a column that may be empty is taken only where there is no other.
MAY_BE_EMPTY = 100


@cache
def tables() -> list[Table]:
    """Each before those that it names rows of: in this order rows can go."""
    every = apps.get_models(include_auto_created=True)
    ours = [one for one in every if one._meta.app_label in APPS]
    named_by = {one: set() for one in ours}
    for one in ours:
        for link in links_of(one):
            named_by.get(link.related_model, set()).add(one)
    order = TopologicalSorter({one: names - {one} for one, names in named_by.items()})
    return list(order.static_order())


def links_of(table: Table) -> list[ForeignKey]:
    return [one for one in table._meta.concrete_fields if one.is_relation]


@cache
def way_to_club(table: Table) -> str:
    """How a query says the club of a row, "green__club"; empty where rows belong to none."""
    waiting, seen = [(0, "", table)], set()
    while waiting:
        length, way, there = heappop(waiting)
        if there is Club:
            return way
        if there not in seen:
            seen.add(there)
            for step in further(length, way, there):
                heappush(waiting, step)
    return ""


def further(length: int, way: str, there: Table) -> Iterator[tuple[int, str, Table]]:
    for link in links_of(there):
        if link.related_model._meta.app_label in APPS:
            longer = length + (MAY_BE_EMPTY if link.null else 1)
            yield longer, f"{way}__{link.name}".removeprefix("__"), link.related_model


def tables_of_clubs() -> list[Table]:
    return [one for one in tables() if one is not Club and way_to_club(one)]


def rows(table: Table, club: Club) -> QuerySet:
    return table.objects.filter(**{way_to_club(table): club})
