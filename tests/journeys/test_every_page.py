"""Every page that a member can open: it fits a phone and a desk, arrives whole, and bars nobody.

Accessibility: WCAG 2.2 AA as far as axe-core can judge it, at 360 px, by day and in the dark.
"""

import pytest

from tests.house.addresses import addresses
from tests.journeys.conftest import DESK, PHONE
from tests.journeys.furnished import furnish, opened
from tests.journeys.looked_at import barred, misfits, missing_pictures

STRANGERS = ["sign_in", "ask_reset", "front"]


@pytest.fixture
def context(new_context):
    """A browser that keeps copies: what the worker complains of on any page is heard too."""
    return new_context()


def faults(page) -> list:
    page.set_viewport_size(DESK)
    found = misfits(page)
    page.set_viewport_size(PHONE)
    return [*found, *misfits(page), *missing_pictures(page), *barred(page)]


@pytest.mark.parametrize("name", STRANGERS)
def test_a_page_for_strangers_is_sound(name, page, live_server, complaints):
    page.goto(live_server.url + next(one for one in addresses() if one.name == name).filled({}))
    assert (faults(page), complaints) == ([], [])


@pytest.mark.parametrize("app", ["greens", "growin"])
def test_every_page_of_a_club_is_sound(app, page, enter, cast, complaints):
    found = {path: faults(page) for path in opened(page, enter("head"), furnish(cast), app)}
    assert len(found) > 25
    assert {path: wrong for path, wrong in found.items() if wrong} == {}
    assert complaints == []
