"""A page that cannot be shown says what to do; one that broke needs no database to say it."""

import re

import pytest
from django.test import Client

from tests.entries import at

LEAD = re.compile(r'<h1>(.*?)</h1>.*?<p class="lead">(.*?)</p>', re.DOTALL)
NUMBER = re.compile(r"this number: <strong>(.*?)</strong>")


@pytest.fixture(autouse=True)
def with_addresses_that_break(settings):
    settings.ROOT_URLCONF = "tests.greens.breaking"


def got(path: str, **more):
    return Client(raise_request_exception=False).get(path, **more)


def said(answer) -> tuple:
    title, words = LEAD.search(answer.content.decode()).groups()
    return answer.status_code, title, words


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        ("/odd/", (400, "This could not be understood", "nothing was saved")),
        ("/shut/", (403, "Your role does not allow this", "Ask the head greenkeeper")),
        ("/nowhere/", (404, "There is no such page", "Go back to your club")),
        ("/breaks/", (500, "Something failed on our side", "Go back and try again in a minute")),
        ("/away/", (503, "The record cannot be reached just now", "Go back and try again in a minute")),
        ("/no-signal/", (200, "No signal", "wait until there is signal")),
    ],
)
def test_what_cannot_be_shown_says_so_and_what_to_do(path, expected):
    """None of these asks the database: this test has none."""
    status, title, words = said(got(path))
    assert (status, title, expected[2] in words) == (*expected[:2], True)


def test_a_name_that_is_not_the_sites_is_refused_in_words():
    answer = got("/sign-in/", headers={"Host": "elsewhere.example.org"})
    assert said(answer)[:2] == (400, "This could not be understood")


def test_a_page_that_broke_shows_the_number_of_its_lines_in_the_log():
    answer = got("/breaks/")
    assert NUMBER.search(answer.content.decode())[1] == answer.headers["X-Request-ID"]


def test_a_page_that_broke_tells_nothing_of_its_innards():
    told = [got(path).content.decode() for path in ("/breaks/", "/away/")]
    assert [word for word in ("a sum of ours", "a-secret-host", "Traceback") if word in "".join(told)] == []


def test_who_finds_the_database_away_may_come_back_soon():
    assert got("/away/").headers["Retry-After"] == "30"


def test_a_form_from_elsewhere_is_told_how_to_be_kept(cast):
    answer = Client(enforce_csrf_checks=True).post(at(cast, "log"))
    status, title, words = said(answer)
    assert (status, title) == (403, "This form was too old to be kept")
    assert ("Nothing was saved" in words, "cookies" in words) == (True, True)
