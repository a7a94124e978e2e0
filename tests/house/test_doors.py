"""Every address is tried by everybody, on GET and on POST: outsiders learn nothing."""

from contextlib import contextmanager

import pytest
from django.db import transaction
from django.test import Client
from django.urls import reverse

from greens.access import Right
from greens.actions.token import make_token
from tests.house.addresses import Address, addresses
from tests.rows import rows_of

MEMBERS = ("head", "staff", "committee", "adviser")
EVERYBODY = (*MEMBERS, "outsider", "nobody")
METHODS = ("get", "post")
LET_IN = {200, 302, 400, 405}
#: A PDF set for every visitor would cost a minute: here they ask for a day on which there is none to set.
ASKED_SO = {
    "statement": "?as_of=2020-01-01",
    **dict.fromkeys(("season_report_pdf", "season_reports_pdf"), "?year=2019"),
}
ALL = addresses()
IN_A_CLUB = [one for one in ALL if one.is_in_a_club]
#: Opened by the token of a program instead of a session.
BY_TOKEN = [one for one in IN_A_CLUB if not one.is_inside]
INSIDE = [one for one in IN_A_CLUB if one.is_inside]
OUTSIDE = [one for one in ALL if not one.is_in_a_club]
#: Pages of the site, what a secret in the address opens, and what is told to programs before any token.
KNOWN_OUTSIDE = {
    *("front", "sign_in", "sign_out", "ask_reset", "give_code"),
    *("you", "change_password", "end_device", "end_other_devices"),
    *("about_you", "erase_me"),
    *("second_step", "begin_code", "set_up_code", "code_key", "spare_codes", "take_off_code"),
    *("set_password", "take_up", "no_more_mail", "feed"),
    *("interface_description", "interface_nowhere"),
    *("worker", "no_signal"),
}


def by_noun(addresses) -> dict[str, list[Address]]:
    """Addresses by the module of their view: they share the club that is made for a test."""
    found: dict[str, list[Address]] = {}
    for one in addresses:
        found.setdefault(one.view.__module__, []).append(one)
    return found


@pytest.fixture
def ours(cast) -> dict:
    return rows_of(cast.staff, cast.establishment)


@pytest.fixture
def theirs(cast) -> dict:
    return rows_of(cast.outsider, cast.other_establishment)


@pytest.fixture
def clients(cast, as_) -> dict[str, Client]:
    return {who: as_(who) for who in (*MEMBERS, "outsider")} | {"nobody": Client()}


@contextmanager
def undone():
    """What a visit changed is taken back, so that the next visitor finds the same club."""
    with transaction.atomic():
        yield
        transaction.set_rollback(True)


def answer(client: Client, method: str, path: str):
    """One visit, read to its end, so that a file behind it is closed."""
    with undone():
        said = getattr(client, method)(path)
        said.getvalue()
        return said


def kind_of(answer) -> int | str:
    """The status, and "sign in" where the answer sends to the door of the site."""
    to_sign_in = answer.status_code == 302 and answer.headers["Location"].startswith(reverse("sign_in"))
    return "sign in" if to_sign_in else answer.status_code


def test_every_address_has_a_name():
    assert [one.route for one in ALL if not one.name] == []


def test_every_word_in_an_address_has_a_row(ours):
    unknown = {word for one in IN_A_CLUB for word in one.words} - set(ours)
    assert unknown == set(), f"Give {unknown} a row in tests/rows.py, rows_of."


def test_every_page_of_a_club_hangs_on_a_door():
    assert [str(one) for one in IN_A_CLUB if not isinstance(getattr(one.view, "right", None), Right)] == []


def expected(one: Address, who: str, cast) -> set:
    """What this visitor may be answered; 405 says that a page does not hear this method, and no more."""
    if who == "nobody":
        return {"sign in", 405}
    if who == "outsider":
        return {404, 405}
    if cast[who].role not in one.view.right.value:
        return {403, 405}
    return LET_IN


@pytest.mark.parametrize("noun", by_noun(INSIDE))
def test_everybody_at_every_door(noun, cast, clients, ours):
    wrong = {}
    for one in by_noun(INSIDE)[noun]:
        path = one.filled(ours) + ASKED_SO.get(one.name, "")
        visits = [(who, how) for who in EVERYBODY for how in METHODS]
        answers = {(str(one), *visit): kind_of(answer(clients[visit[0]], visit[1], path)) for visit in visits}
        wrong |= {visit: kind for visit, kind in answers.items() if kind not in expected(one, visit[1], cast)}
    assert wrong == {}


def swapped(one: Address, ours: dict, theirs: dict) -> list[str]:
    """The club's own address with one row of another club in it, each in turn."""
    here, there = one.said(ours), one.said(theirs)
    words = [word for word in one.words - {"club_slug"} if here[word] != there[word]]
    return [reverse(one.name, kwargs=here | {word: there[word]}) for word in words]


def hidden(one: Address, who: str, cast) -> set[int]:
    """Another club's row does not exist; who may not do this at all may be told so instead."""
    return {404, 405} if cast[who].role in one.view.right.value else {403, 404, 405}


WITH_ROWS = [one for one in INSIDE if len(one.words) > 1]


@pytest.mark.parametrize("noun", by_noun(WITH_ROWS))
def test_another_clubs_rows_do_not_exist_here(noun, cast, clients, ours, theirs):
    seen = {}
    for one in by_noun(WITH_ROWS)[noun]:
        visits = [(who, how, at) for at in swapped(one, ours, theirs) for who in MEMBERS for how in METHODS]
        answers = {(who, how, at): answer(clients[who], how, at).status_code for who, how, at in visits}
        seen |= {
            visit: status for visit, status in answers.items() if status not in hidden(one, visit[0], cast)
        }
    assert seen == {}


@pytest.fixture
def programs(cast) -> dict[str, Client]:
    """A program of everybody's, with a token; that of "nobody" has none. None of them is signed in."""
    tokens = {who: make_token(member=cast[who], name="a screen") for who in (*MEMBERS, "outsider")}
    heads = {who: {"Authorization": f"Bearer {token}"} for who, token in tokens.items()}
    return {who: Client(headers=head) for who, head in heads.items()} | {"nobody": Client()}


@pytest.mark.parametrize("one", BY_TOKEN, ids=str)
def test_programs_are_let_in_by_the_token_of_a_member_alone(one, programs, clients, ours):
    path = one.filled(ours)
    answers = {who: answer(program, "get", path).status_code for who, program in programs.items()}
    assert answers == dict.fromkeys(MEMBERS, 200) | {"outsider": 404, "nobody": 401}
    assert {answer(client, "get", path).status_code for client in clients.values()} == {401}
    assert {answer(program, "post", path).status_code for program in programs.values()} == {405}


@pytest.mark.parametrize("one", [one for one in BY_TOKEN if len(one.words) > 1], ids=str)
def test_another_clubs_rows_do_not_exist_for_a_program(one, programs, ours, theirs):
    visits = [(who, path) for path in swapped(one, ours, theirs) for who in MEMBERS]
    assert {answer(programs[who], "get", path).status_code for who, path in visits} == {404}


def test_what_stands_outside_every_door_is_known():
    assert {one.name for one in OUTSIDE} == KNOWN_OUTSIDE


@pytest.mark.parametrize("one", OUTSIDE, ids=str)
def test_pages_of_the_site_answer_everybody(one, clients):
    path = one.filled(dict.fromkeys(one.words, "no-such-secret"))
    statuses = {answer(clients[who], how, path).status_code for who in ("nobody", "head") for how in METHODS}
    assert statuses <= {200, 302, 404, 405}
