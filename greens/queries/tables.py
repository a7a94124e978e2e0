"""Every table of the site, counted and summed up, so that two databases can be held against each other."""

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import sha256

from django.apps import apps
from django.db import connections
from django.db.models import Field, Model

PIECE_ROWS = 2_000
#: Rows of these tables are made with the tables, from the names of models.
MADE_WITH_THE_TABLES = {"contenttypes.contenttype", "auth.permission"}


class NotCopied(ValueError):
    """A database that cannot be copied or put back; the message is for people."""


@dataclass(frozen=True)
class Sum:
    """How many rows a table has, and a checksum over all their values in the order of their keys."""

    rows: int
    digest: str

    @classmethod
    def over(cls, rows: Iterable[Sequence]) -> "Sum":
        digest, count = sha256(), 0
        for row in rows:
            digest.update(repr(row).encode())
            count += 1
        return cls(count, digest.hexdigest())


def kept() -> list[type[Model]]:
    """Every model with a table of its own, those that only tie two others together too."""
    return [one for one in apps.get_models(include_auto_created=True) if one._meta.managed]


def columns(model: type[Model]) -> list[Field]:
    return [field for field in model._meta.local_concrete_fields if not field.generated]


def rows_of(model: type[Model], using: str) -> Iterator[tuple]:
    """All values of all rows, by their key, without having them all in memory."""
    names = [field.attname for field in columns(model)]
    rows = model._base_manager.using(using).order_by("pk").values_list(*names)
    return rows.iterator(chunk_size=PIECE_ROWS)


def is_theirs(model: type[Model]) -> bool:
    """Whether people or their work fill this table."""
    return model._meta.label_lower not in MADE_WITH_THE_TABLES


def first_occupied(using: str) -> str | None:
    """The name of a table with rows of people in it; none in a new database, with tables or without."""
    there = set(connections[using].introspection.table_names())
    theirs = {model._meta.db_table: model for model in kept() if is_theirs(model)}
    for name in sorted(there & set(theirs)):
        if theirs[name]._base_manager.using(using).exists():
            return name
    return None


def summed(model: type[Model], using: str) -> Sum:
    """The sum of a table: the same for the same values, whichever database keeps them."""
    return Sum.over([said(value) for value in row] for row in rows_of(model, using))


def said(value):
    """A value in words that do not depend on the database: the order of keys, the zone of a moment."""
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat()
    if isinstance(value, dict | list):
        return json.dumps(plain(value), sort_keys=True)
    return bytes(value) if isinstance(value, memoryview) else value


def plain(value):
    """JSON as PostgreSQL keeps it: a number is a number, 1.0 the same as 1."""
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [plain(one) for one in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value
