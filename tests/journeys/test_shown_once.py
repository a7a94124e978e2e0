"""Secrets that a page shows once: made, copied, used and ended on a phone, by a browser's own rules."""

import re

from playwright.sync_api import expect

from tests.entries import at
from tests.journeys.looked_at import barred, misfits


def test_a_calendar_address_is_made_replaced_and_ended(phone, enter, cast, complaints):
    url = enter("committee")
    phone.goto(url + at(cast, "wishes"))
    phone.get_by_role("link", name="Put the greens in your calendar").click()
    phone.get_by_role("button", name="Make the address").click()
    first = phone.get_by_text(re.compile("/greens.ics")).inner_text()
    assert (misfits(phone), barred(phone)) == ([], [])
    tap = phone.get_by_role("link", name="Open it in a calendar").get_attribute("href")
    assert tap == first.replace("http:", "webcal:")
    phone.goto(url + at(cast, "my_feed"))
    expect(phone.get_by_text("cannot be shown again")).to_be_visible()
    phone.get_by_role("button", name="Replace the address").click()
    second = phone.get_by_text(re.compile("/greens.ics")).inner_text()
    paths = [re.sub("^http://[^/]+", url, one) for one in (first, second)]
    assert [phone.request.get(path).status for path in paths] == [404, 200]
    phone.get_by_role("button", name="End it").click()
    expect(phone.get_by_text("The calendar address is ended")).to_be_visible()
    assert (phone.request.get(paths[1]).status, complaints) == (404, [])


def test_a_token_is_made_used_and_ended(phone, enter, cast, complaints):
    url = enter("adviser")
    phone.goto(url + at(cast, "interface"))
    assert (misfits(phone), barred(phone)) == ([], [])
    phone.get_by_role("link", name="Your tokens").click()
    phone.get_by_label("What is it for").fill("Screen in the clubhouse")
    phone.get_by_role("button", name="Make a token").click()
    head = {"Authorization": f"Bearer {phone.locator('.secret').inner_text()}"}
    assert (misfits(phone), barred(phone)) == ([], [])
    asked = f"{url}/interface/v1/clubs/{cast.club.slug}/greens/"
    assert phone.request.get(asked, headers=head).json()["items"][0]["name"] == "Seventh"
    phone.get_by_role("button", name="End it").click()
    expect(phone.get_by_text("“Screen in the clubhouse” is ended")).to_be_visible()
    assert (phone.request.get(asked, headers=head).status, complaints) == (401, [])
