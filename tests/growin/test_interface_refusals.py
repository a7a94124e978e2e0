"""What programs are refused, always in JSON and with a sentence that says what should be."""

import pytest
from django.test import Client

from greens.actions.token import make_token
from tests.growin.asking import asking

pytestmark = pytest.mark.django_db


@pytest.fixture
def ask(cast):
    return asking(cast)


A_DAY = "it should be a day such as 2026-04-16."
REFUSED = {
    ("since", "yesterday"): f"since is “yesterday”; {A_DAY}",
    ("since", "2026-02-30"): f"since is “2026-02-30”; {A_DAY}",
    ("since", "20260416"): f"since is “20260416”; {A_DAY}",
    ("since", ""): f"since is “”; {A_DAY}",
    ("limit", "0"): "limit is “0”; it should be a whole number from 1 to 200.",
    ("limit", "201"): "limit is “201”; it should be a whole number from 1 to 200.",
    ("limit", "ten"): "limit is “ten”; it should be a whole number from 1 to 200.",
    ("cursor", "7"): "cursor is “7”; it should be what the answer before gave as “next”.",
    ("cursor", "1-1\n"): "cursor is “1-1\n”; it should be what the answer before gave as “next”.",
    ("green", "Seventh"): "green is “Seventh”; it should be the id of a green.",
    ("sinse", "2026-04-16"): (
        "This address does not know “sinse”; it knows since, until, green, kind, cursor, limit."
    ),
}


@pytest.mark.parametrize(("name", "text"), REFUSED, ids=str)
def test_what_is_not_understood_is_refused_with_a_sentence(ask, name, text):
    answer = ask("diary/", **{name: text})
    assert (answer.status_code, answer.json()) == (400, {"error": REFUSED[name, text]})


def test_what_is_said_twice_is_refused(ask):
    answer = ask("diary/", limit=[1, 2])
    assert (answer.status_code, answer.json()) == (400, {"error": "“limit” is said more than once."})


def test_another_clubs_green_does_not_exist_in_a_question_either(cast, ask):
    answer = ask("diary/", green=cast.other_green.pk)
    sentence = f"There is no green {cast.other_green.pk} in this club."
    assert (answer.status_code, answer.json()) == (404, {"error": sentence})


@pytest.mark.parametrize("cursor", ["0-0", "9999999-999999999999999999"])
def test_any_cursor_of_the_right_shape_is_a_place(ask, cursor):
    for route in ("diary/", "readings/", "weather/", "greens/", "decisions/"):
        assert ask(route, cursor=cursor).status_code == 200


@pytest.mark.parametrize(
    "path", ["nowhere/", "clubs/marram-links/nowhere/", "clubs/a b/", "clubs/x/greens/y/"]
)
def test_an_address_that_is_none_is_refused_in_json(client, path):
    answer = client.get(f"/interface/v1/{path}")
    assert (answer.status_code, list(answer.json())) == (404, ["error"])


def test_without_a_token_a_program_is_told_what_to_show(client, cast):
    answer = client.get(f"/interface/v1/clubs/{cast.club.slug}/")
    assert (answer.status_code, answer["WWW-Authenticate"]) == (401, "Bearer")
    assert answer.json()["error"].startswith("Show a token that still holds")


def test_programs_only_read(cast):
    token = make_token(member=cast.head, name="Screen")
    program = Client(headers={"Authorization": f"Bearer {token}"}, enforce_csrf_checks=True)
    answer = program.post(f"/interface/v1/clubs/{cast.club.slug}/diary/", {})
    assert (answer.status_code, answer["Allow"]) == (405, "GET, HEAD")


def test_answers_are_kept_by_nobody_on_the_way(ask):
    assert "no-store" in ask()["Cache-Control"]
