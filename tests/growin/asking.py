"""A program that asks, for tests of what programs read."""

from collections.abc import Callable

from django.test import Client

from greens.actions.token import make_token
from tests.cast import Cast


def asking(cast: Cast) -> Callable:
    """``asking(cast)("diary/", limit=2)`` is the answer to a program of the adviser's."""
    token = make_token(member=cast.adviser, name="Spreadsheet")
    program = Client(headers={"Authorization": f"Bearer {token}"})
    return lambda route="", **said: program.get(f"/interface/v1/clubs/{cast.club.slug}/{route}", said)


def told(answer) -> dict:
    """What an answer says; a refusal fails."""
    assert (answer.status_code, answer["Content-Type"]) == (200, "application/json"), answer.content
    return answer.json()
