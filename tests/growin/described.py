"""Does a value keep a schema? As much of JSON Schema (2020-12) as our own description uses."""

import re
from collections.abc import Iterator
from datetime import date, datetime

TYPES = {
    "string": str,
    "integer": int,
    "number": (int, float),
    "boolean": bool,
    "null": type(None),
    "array": list,
    "object": dict,
}
FORMATS = {"date": date.fromisoformat, "date-time": datetime.fromisoformat}
WORDS = {
    *("$ref", "anyOf", "type", "enum", "format", "pattern", "minimum", "maximum", "description"),
    *("items", "properties", "required", "additionalProperties"),
}


def broken(value, schema: dict, whole: dict, at: str = "$") -> Iterator[str]:
    """Where the value breaks the schema; a word of the schema that is not known here breaks it too."""
    if "$ref" in schema:
        yield from broken(value, referred(schema["$ref"], whole), whole, at)
        return
    yield from (f"{at}: {word}" for word in set(schema) - WORDS)
    if "anyOf" in schema and all(any(broken(value, one, whole, at)) for one in schema["anyOf"]):
        yield f"{at}: none of {schema['anyOf']}"
    if "enum" in schema and value not in schema["enum"]:
        yield f"{at}: {value!r} is not listed"
    if "type" in schema and not is_of(value, schema["type"]):
        yield f"{at}: {value!r} is no {schema['type']}"
    elif "type" in schema:
        yield from broken_within(value, schema, whole, at)


def is_of(value, kind: str) -> bool:
    return isinstance(value, TYPES[kind]) and (kind == "boolean" or not isinstance(value, bool))


def broken_within(value, schema: dict, whole: dict, at: str) -> Iterator[str]:
    if isinstance(value, str) and not re.search(schema.get("pattern", ""), value):
        yield f"{at}: {value!r} has another shape"
    if isinstance(value, str) and "format" in schema:
        FORMATS[schema["format"]](value)
    if isinstance(value, list):
        for number, one in enumerate(value):
            yield from broken(one, schema["items"], whole, f"{at}[{number}]")
    if isinstance(value, dict):
        yield from broken_object(value, schema, whole, at)


def broken_object(value: dict, schema: dict, whole: dict, at: str) -> Iterator[str]:
    known, others = schema.get("properties", {}), schema.get("additionalProperties", {})
    yield from (f"{at}: {name} is missing" for name in schema.get("required", ()) if name not in value)
    for name, one in value.items():
        if name not in known and others is False:
            yield f"{at}: {name} is not described"
        else:
            yield from broken(one, known.get(name, others), whole, f"{at}.{name}")


def referred(ref: str, whole: dict) -> dict:
    found = whole
    for part in ref.removeprefix("#/").split("/"):
        found = found[part]
    return found
