"""Rows of another club, named inside what is sent: an unknown choice, and nothing changes on either side.

Which fields name a row is found out, not listed: the forms of every page are read for values that are
rows of ours, and every page is listened to for the fields that it looks for.
"""

import os
from datetime import date
from uuid import uuid4

import pytest
from django.conf import settings
from django.db import transaction
from django.test import override_settings

from tests.hostile.round import Round
from tests.house.addresses import Address
from tests.house.two_clubs import two_clubs
from tests.house.visits import INSIDE, PAGES, THEIR_ROW, Visits, naming, theirs
from tests.pockets import head

pytestmark = pytest.mark.django_db
TODAY = date(2026, 4, 16)
ASKED_BY_ALL = {"typed_in"}


@pytest.fixture(scope="module")
def visits(django_db_setup, django_db_blocker):
    """Built once for all tests here, which leave it as they found it."""
    listens = [*settings.MIDDLEWARE, "tests.house.asked.heard"]
    told = override_settings(FIXED_TODAY=TODAY, MIDDLEWARE=listens)
    with django_db_blocker.unblock(), told, transaction.atomic():
        yield Visits(two_clubs())
        transaction.set_rollback(True)


#: So many fields name a row; fewer would mean that the forms were not read.
AT_LEAST = 20


def choices(visits: Visits) -> list[tuple[Address, str, list[str]]]:
    """Every field of every form that names a row, with a row of the other club for ours."""
    named = [(one, naming(visits.forms[one.name])) for one in INSIDE]
    return [(one, name, theirs(value)) for one, names in named for name, value in names.items()]


def test_rows_of_ours_are_taken_by_every_form_that_names_any(visits):
    """Or else the refusals below would prove nothing."""
    naming_any = {one.name for one, _, _ in choices(visits)}
    assert {name for name in naming_any if not visits.untouched[name].wrote} == set()
    assert len(choices(visits)) > AT_LEAST


def test_a_row_of_another_club_is_an_unknown_choice(visits):
    sent = [(str(one), name, visits.send(one, {name: value})) for one, name, value in choices(visits)]
    assert [(one, name) for one, name, heard in sent if heard.wrote] == []


def test_a_row_of_another_club_is_an_unknown_choice_for_a_phone_too(visits):
    sent, slip = {}, head(visits.clubs.cast.head, uuid4())
    for one, name, value in choices(visits):
        if getattr(one.view, "takes_slips", False):
            heard = visits.send(one, {name: value}, slip)
            sent[str(one), name] = (heard.answer.status_code, heard.answer.json()["state"], heard.wrote)
    assert set(map(str, sent.values())) == {str((422, "refused", {"greens_arrival"}))}


def test_a_field_that_no_form_shows_reaches_no_row_of_another_club(visits):
    for one in INSIDE:
        asked = getattr(visits.untouched[one.name].answer, "asked", set())
        for name in asked - visits.forms[one.name].boxes - ASKED_BY_ALL:
            visits.send(one, {name: THEIR_ROW})


def test_what_an_address_asks_for_shows_no_row_of_another_club(visits):
    asked = [(one, name) for one in PAGES for name in visits.pages[one.name].sought - ASKED_BY_ALL]
    shown = [
        (str(one), name) for one, name in asked if visits.wrong(visits.look(one, {name: THEIR_ROW}), set())
    ]
    assert shown == []


def test_bad_requests_break_nothing_and_show_nothing_of_another_club(visits):
    """A few of those that ``python -m tests.hostile 10000`` sends, the same in every run."""
    times, seed = (
        int(os.environ.get(name, few)) for name, few in (("HOSTILE_REQUESTS", 300), ("HOSTILE_SEED", 16))
    )
    found = Round(visits, seed).go(times)
    print(found)  # noqa: T201 (what the command shows)
    assert (found.asked, found.broken, found.leaks) == (times, [], [])
