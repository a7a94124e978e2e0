"""The interface described for programs: OpenAPI 3.1, made from the table of addresses."""

import re

from django.conf import settings

from growin.interface.asked import Parameter
from growin.interface.endpoints import ENDPOINTS, Endpoint
from growin.interface.schema import component_of, schema_of, within

ROOT = "/interface/v1/clubs/{club_slug}/"
REFUSALS = {
    "400": "The question was not understood; the sentence says what should stand there.",
    "401": "No token, or one that opens nothing any more.",
    "403": "The role of the token's member does not allow it.",
    "404": "No such thing in the club of the token.",
    "405": "Only reading is possible.",
    "429": "Asked too often; Retry-After says how many seconds to wait.",
}
HEADERS = {
    "401": {"WWW-Authenticate": ("The way to show a token.", {"type": "string"})},
    "405": {"Allow": ("The methods that are.", {"type": "string"})},
    "429": {"Retry-After": ("Seconds to wait.", {"type": "integer", "minimum": 1})},
}
IN_PATH = {
    "club_slug": ("The club, as it stands in the address of its pages.", {"type": "string"}),
    "green_id": ("A green of the club.", {"type": "integer", "minimum": 0}),
}


def description() -> dict:
    """The whole of it."""
    kinds = {kind.__name__: kind for one in ENDPOINTS for kind in within(one.gives)}
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "Greens record",
            "version": "1",
            "description": (
                "Reads the record of one club; it writes nothing. Figures are metric with the unit in their "
                "name, days are the club's own, instants are UTC, ids stay the same for ever. Nothing is "
                "taken out of version 1; fields may be added."
            ),
        },
        "servers": [{"url": settings.SITE_URL}],
        "security": [{"token": []}],
        "paths": {path_of(one): {"get": operation(one)} for one in ENDPOINTS},
        "components": {
            "securitySchemes": {"token": {"type": "http", "scheme": "bearer"}},
            "schemas": {name: component_of(kind) for name, kind in kinds.items()} | {"Refusal": REFUSAL},
            "responses": {status: refusal(status) for status in REFUSALS},
        },
    }


REFUSAL = {
    "type": "object",
    "properties": {"error": {"type": "string", "description": "A sentence for people."}},
    "required": ["error"],
    "additionalProperties": False,
}


def path_of(one: Endpoint) -> str:
    return ROOT + re.sub(r"<\w+:(\w+)>", r"{\1}", one.route)


def operation(one: Endpoint) -> dict:
    return {
        "operationId": one.name,
        "summary": one.words,
        "parameters": [
            *(in_path(name) for name in re.findall(r"{(\w+)}", path_of(one))),
            *(in_query(parameter) for parameter in one.parameters),
        ],
        "responses": {
            "200": {"description": one.words, "content": in_json(given(one))},
            **{status: {"$ref": f"#/components/responses/{status}"} for status in REFUSALS},
        },
    }


def given(one: Endpoint) -> dict:
    """The schema of an answer."""
    if not one.is_list:
        return schema_of(one.gives)
    return {
        "type": "object",
        "properties": {
            "items": schema_of(list[one.gives]),
            "next": schema_of(str | None) | {"description": "The cursor to go on with; null at the end."},
        },
        "required": ["items", "next"],
        "additionalProperties": False,
    }


def in_path(name: str) -> dict:
    words, schema = IN_PATH[name]
    return {"name": name, "in": "path", "required": True, "description": words, "schema": schema}


def in_query(one: Parameter) -> dict:
    return {"name": one.name, "in": "query", "description": one.words, "schema": one.schema}


def refusal(status: str) -> dict:
    told = HEADERS.get(status, {})
    heads = {name: {"description": words, "schema": kind} for name, (words, kind) in told.items()}
    said = {"description": REFUSALS[status], "content": in_json({"$ref": "#/components/schemas/Refusal"})}
    return said | ({"headers": heads} if heads else {})


def in_json(schema: dict) -> dict:
    return {"application/json": {"schema": schema}}
