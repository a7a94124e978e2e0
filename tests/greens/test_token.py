"""Tokens of programs: made, shown once, ended by their member or the head greenkeeper, slowed down."""

import re
from datetime import UTC, datetime

import pytest
import time_machine
from django.test import Client

from greens.actions.people import NotPossible, end_membership
from greens.actions.token import MOST, end_token, make_token, seconds_to_wait
from greens.models import Token, TrailLine
from greens.models.link import hashed
from tests.entries import at

pytestmark = pytest.mark.django_db
SECRET = re.compile(r'<p class="secret">([\w-]{43})</p>')


def asked(cast, secret: str, scheme: str = "Bearer"):
    path = f"/interface/v1/clubs/{cast.club.slug}/"
    return Client(headers={"Authorization": f"{scheme} {secret}"}).get(path)


def test_a_member_makes_a_token_and_sees_it_once(cast, as_):
    shown = as_("committee").post(at(cast, "tokens"), {"name": "Screen in the clubhouse"}).content.decode()
    secret = SECRET.search(shown)[1]
    again = as_("committee").get(at(cast, "tokens")).content.decode()
    assert (secret in again, "Screen in the clubhouse" in again, "not used yet" in again) == (
        False,
        True,
        True,
    )
    assert asked(cast, secret).status_code == 200
    assert "last used" in as_("committee").get(at(cast, "tokens")).content.decode()


def test_only_a_hash_of_the_token_is_kept(cast):
    secret = make_token(member=cast.staff, name="Spreadsheet")
    assert Token.objects.get().secret_hash == hashed(secret)
    assert secret not in repr(list(TrailLine.objects.values()))


def test_a_token_without_a_name_is_not_made(cast, as_):
    page = as_("staff").post(at(cast, "tokens"), {"name": " "})
    assert (page.status_code, Token.objects.count()) == (200, 0)
    assert page.context["form"].errors["name"] == ["This field is required."]


def test_a_member_ends_their_own_token(cast, as_):
    secret = make_token(member=cast.staff, name="Spreadsheet")
    as_("staff").post(at(cast, "end_token"), {"token": Token.objects.get().pk})
    assert asked(cast, secret).status_code == 401
    assert TrailLine.objects.filter(deed="Ended the token “Spreadsheet” of Callum Reed").count() == 1


def test_the_head_greenkeeper_sees_and_ends_anybodys(cast, as_):
    secret = make_token(member=cast.committee, name="Spreadsheet")
    assert "Spreadsheet" in as_("head").get(at(cast, "tokens")).content.decode()
    as_("head").post(at(cast, "end_token"), {"token": Token.objects.get().pk})
    assert asked(cast, secret).status_code == 401


@pytest.mark.parametrize("who", ["staff", "adviser"])
def test_others_neither_see_nor_end_it(cast, as_, who):
    secret = make_token(member=cast.committee, name="Spreadsheet")
    assert "Spreadsheet" not in as_(who).get(at(cast, "tokens")).content.decode()
    as_(who).post(at(cast, "end_token"), {"token": Token.objects.get().pk})
    assert asked(cast, secret).status_code == 200


def test_a_head_greenkeeper_ends_no_token_of_another_club(cast, as_):
    make_token(member=cast.outsider, name="Theirs")
    as_("head").post(at(cast, "end_token"), {"token": Token.objects.get().pk})
    assert Token.objects.get().ended_at is None


@pytest.mark.parametrize("number", ["", "many", "9" * 30])
def test_a_number_that_is_none_ends_nothing(cast, as_, number):
    make_token(member=cast.staff, name="Spreadsheet")
    assert as_("staff").post(at(cast, "end_token"), {"token": number}).status_code == 302
    assert Token.objects.get().ended_at is None


def test_a_token_ends_with_the_membership(cast):
    secret = make_token(member=cast.staff, name="Spreadsheet")
    end_membership(member=cast.staff, by=cast.head)
    assert asked(cast, secret).status_code == 401


def test_a_token_is_ended_once(cast):
    make_token(member=cast.staff, name="Spreadsheet")
    row = Token.objects.get()
    assert (end_token(row=row, by=cast.staff), end_token(row=row, by=cast.staff)) == (True, False)


def test_ten_tokens_are_enough(cast):
    for number in range(MOST):
        make_token(member=cast.staff, name=f"Program {number}")
    with pytest.raises(NotPossible, match="You have 10 tokens"):
        make_token(member=cast.staff, name="One more")


@pytest.mark.parametrize("scheme", ["Basic", "Token", ""])
def test_a_token_is_shown_as_a_bearer_or_not_at_all(cast, scheme):
    assert asked(cast, make_token(member=cast.staff, name="Spreadsheet"), scheme).status_code == 401


def test_the_word_bearer_may_be_written_small(cast):
    assert asked(cast, make_token(member=cast.staff, name="Spreadsheet"), "bearer").status_code == 200


def test_a_program_that_runs_wild_waits_for_the_next_minute(cast, settings):
    settings.INTERFACE_QUESTIONS_A_MINUTE = 3
    secret = make_token(member=cast.staff, name="Spreadsheet")
    with time_machine.travel(datetime(2026, 4, 16, 9, 0, 48, tzinfo=UTC), tick=False) as clock:
        assert [asked(cast, secret).status_code for _ in range(3)] == [200] * 3
        refused = asked(cast, secret)
        assert (refused.status_code, refused["Retry-After"]) == (429, "12")
        assert refused.json() == {"error": "Asked too often; wait 12 seconds."}
        clock.shift(12)
        assert asked(cast, secret).status_code == 200


def test_one_programs_haste_is_not_anothers(cast, settings):
    settings.INTERFACE_QUESTIONS_A_MINUTE = 1
    hasty, calm = (make_token(member=cast.staff, name=name) for name in ("Hasty", "Calm"))
    with time_machine.travel(datetime(2026, 4, 16, 9, 0, 48, tzinfo=UTC), tick=False):
        assert [asked(cast, one).status_code for one in (hasty, hasty, calm)] == [200, 429, 200]


def test_counting_a_question_costs_one_query(cast, django_assert_num_queries):
    make_token(member=cast.staff, name="Spreadsheet")
    row = Token.objects.get()
    with django_assert_num_queries(1):
        assert seconds_to_wait(row) == 0
