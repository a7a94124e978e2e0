"""A dataclass of plain values is its own description: JSON Schema (2020-12) from its fields.

What is answered and what is described are one thing, so that they cannot come to differ.
"""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from datetime import date, datetime
from types import NoneType, UnionType
from typing import Annotated, Any, NamedTuple, Union, get_args, get_origin, get_type_hints


class OneOf(NamedTuple):
    """Metadata of a text that is one of a closed list of words."""

    words: tuple[str | None, ...]


PLAIN = {
    str: {"type": "string"},
    int: {"type": "integer"},
    float: {"type": "number"},
    bool: {"type": "boolean"},
    date: {"type": "string", "format": "date"},
    datetime: {"type": "string", "format": "date-time"},
    NoneType: {"type": "null"},
    Any: {},
}


def schema_of(kind) -> dict:
    """The schema of a type; dataclasses by reference to the description's components."""
    origin, parts = get_origin(kind), get_args(kind)
    if origin is Annotated:
        return schema_of(parts[0]) | said_beside(parts[1:])
    if origin in (Union, UnionType):
        return {"anyOf": [schema_of(one) for one in parts]}
    if origin is list:
        return {"type": "array", "items": schema_of(parts[0])}
    if origin is dict:
        return {"type": "object", "additionalProperties": schema_of(parts[1])}
    return {"$ref": f"#/components/schemas/{kind.__name__}"} if is_dataclass(kind) else dict(PLAIN[kind])


def said_beside(metadata: tuple) -> dict:
    """A closed list of words, and what the field means."""
    lists = [list(one.words) for one in metadata if isinstance(one, OneOf)]
    words = [one for one in metadata if isinstance(one, str)]
    return ({"enum": lists[0]} if lists else {}) | ({"description": words[0]} if words else {})


def component_of(kind: type) -> dict:
    """The schema of a dataclass in full: every field is always there, and no other."""
    hints = get_type_hints(kind, include_extras=True)
    return {
        "type": "object",
        "description": kind.__doc__,
        "properties": {name: schema_of(hint) for name, hint in hints.items()},
        "required": [one.name for one in fields(kind)],
        "additionalProperties": False,
    }


def within(kind) -> Iterator[type]:
    """The dataclasses that a type is made of, itself included."""
    if is_dataclass(kind):
        yield kind
        for hint in get_type_hints(kind, include_extras=True).values():
            yield from within(hint)
    for part in get_args(kind):
        yield from within(part)
