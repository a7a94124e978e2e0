"""Whose rows are whose, in every table that holds rows of clubs."""

from django.db import models

from greens.models import Club
from greens.queries.whole_club import links_of, rows, tables_of_clubs, way_to_club

of_clubs = tables_of_clubs
rows_of = rows


def written(table: type[models.Model], club: Club) -> list[tuple]:
    """Everything that a table holds of the club."""
    return list(rows(table, club).order_by("pk").values_list())


def crossed(table: type[models.Model]) -> list[tuple[str, object]]:
    """Rows that name a row of another club than their own: nothing may ever make one."""
    own = way_to_club(table)
    return [
        (f"{table.__name__}.{link}", pk) for link, way in ways(table) for pk in apart(table, link, own, way)
    ]


def ways(table: type[models.Model]) -> list[tuple[str, str]]:
    """Each column that names a row of a club, with the way from there to its club."""
    links = [(one.name, one.related_model) for one in links_of(table)]
    found = [(name, f"{name}__{way_to_club(there)}") for name, there in links if way_to_club(there)]
    return found + [(name, name) for name, there in links if there is Club]


def apart(table: type[models.Model], link: str, own: str, way: str) -> list:
    """Rows whose own club is not that of the row they name."""
    named = table.objects.exclude(**{link: None}).exclude(**{own: None})
    return list(named.exclude(**{way: models.F(own)}).values_list("pk", flat=True)) if way != own else []
