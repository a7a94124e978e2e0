"""What a page says back can be read by everybody: a refused form, and what was kept."""

import pytest
from django.urls import reverse
from playwright.sync_api import expect

from tests.house.addresses import addresses
from tests.journeys.furnished import furnish
from tests.journeys.looked_at import barred

SENT_EMPTY = {
    "head": ["green_new", "rebuild_new", "log_work", "add_product", "change_setting", "defect_new"],
    "staff": ["take_reading", "not_done_step"],
    "committee": ["decide"],
}


@pytest.mark.parametrize("role", SENT_EMPTY)
def test_no_form_that_is_refused_bars_anybody(role, phone, enter, cast):
    url, rows = enter(role), furnish(cast) | {"log_work.kind": "cut"}
    found = {}
    for name in SENT_EMPTY[role]:
        phone.goto(url + next(one for one in addresses() if one.name == name).filled(rows))
        with phone.expect_navigation():
            phone.locator("main .button--main").click()
        refused = phone.get_by_role("alert").count() > 0
        found[name] = (refused, barred(phone))
    assert found == dict.fromkeys(SENT_EMPTY[role], (True, []))


def test_what_was_kept_is_said_to_everybody(phone, enter, cast):
    phone.goto(enter("head") + reverse("normals", args=[cast.club.slug]))
    phone.get_by_role("button", name="Keep the normals").click()
    expect(phone.get_by_role("status").get_by_role("listitem")).to_have_count(1)
    assert barred(phone) == []
