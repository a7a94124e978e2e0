"""A member's own calendar address: made, shown once, replaced, ended; its secret stands nowhere."""

import logging
import re

import pytest
from django.test import Client

from greens.actions.feed import make_feed
from greens.actions.people import end_membership
from greens.models import Feed, TrailLine
from greens.models.link import hashed
from tests.entries import at

pytestmark = pytest.mark.django_db
ADDRESS = re.compile(r"http://[^<\s]+/calendar/([\w-]{43})/greens\.ics")


def made(cast, as_, who="staff") -> str:
    """The secret of an address that was just made on the page."""
    return ADDRESS.search(as_(who).post(at(cast, "my_feed")).content.decode())[1]


def fetched(secret: str, **heads):
    """What a calendar gets, which never signs in."""
    return Client().get(f"/calendar/{secret}/greens.ics", headers=heads)


def test_a_member_makes_an_address_and_sees_it_once(cast, as_):
    assert "There is no such address of yours yet" in as_("staff").get(at(cast, "my_feed")).content.decode()
    secret = made(cast, as_)
    again = as_("staff").get(at(cast, "my_feed")).content.decode()
    assert (secret in again, "cannot be shown again" in again) == (False, True)
    assert fetched(secret).status_code == 200


def test_only_a_hash_of_the_secret_is_kept(cast, as_):
    secret = made(cast, as_)
    assert Feed.objects.get(member=cast.staff).secret_hash == hashed(secret)
    assert secret not in repr(list(TrailLine.objects.values()))
    assert TrailLine.objects.filter(deed="Callum Reed made a calendar address").count() == 1


def test_replacing_the_address_ends_the_old_one_at_once(cast, as_):
    old, new = made(cast, as_), made(cast, as_)
    assert (fetched(old).status_code, fetched(new).status_code) == (404, 200)
    assert TrailLine.objects.filter(deed="Callum Reed replaced their calendar address").count() == 1


def test_ending_the_address_ends_it_at_once(cast, as_):
    secret = made(cast, as_)
    assert as_("staff").post(at(cast, "end_feed")).status_code == 302
    assert (fetched(secret).status_code, Feed.objects.count()) == (404, 0)
    assert as_("staff").post(at(cast, "end_feed")).status_code == 302


def test_nobody_ends_the_address_of_another(cast, as_):
    secret = made(cast, as_)
    as_("head").post(at(cast, "end_feed"))
    assert fetched(secret).status_code == 200


def test_who_leaves_the_club_finds_nothing_from_then_on(cast):
    secret = make_feed(member=cast.staff)
    assert fetched(secret).status_code == 200
    end_membership(member=cast.staff, by=cast.head)
    assert fetched(secret).status_code == 404


def test_who_may_not_sign_in_any_more_finds_nothing(cast):
    secret = make_feed(member=cast.staff)
    cast.staff.person.is_active = False
    cast.staff.person.save()
    assert fetched(secret).status_code == 404


def test_the_page_says_when_the_calendar_last_asked(cast, as_):
    secret = made(cast, as_)
    assert "not yet" in as_("staff").get(at(cast, "my_feed")).content.decode()
    fetched(secret)
    assert Feed.objects.get().read_at is not None
    assert "not yet" not in as_("staff").get(at(cast, "my_feed")).content.decode()


def test_the_secret_goes_to_no_other_site(cast, as_):
    """The page shows it in its body only; what lies behind the address says nothing of where it lies."""
    secret = made(cast, as_)
    answers = (fetched(secret), fetched(secret, if_none_match=fetched(secret)["ETag"]))
    assert [(one.status_code, one["Referrer-Policy"]) for one in answers] == [
        (200, "no-referrer"),
        (304, "no-referrer"),
    ]
    assert as_("staff").post(at(cast, "my_feed"))["Referrer-Policy"] == "same-origin"


@pytest.mark.parametrize("path", ["/calendar/{}/greens.ics", "/invitation/{}/", "/new-password/{}/"])
def test_the_log_never_holds_a_secret_of_an_address(path, client, db, caplog):
    with caplog.at_level(logging.WARNING):
        client.get(path.format("s3cret-of-somebody"))
    assert ("s3cret" in caplog.text, "Not Found" in caplog.text) == (False, True)


@pytest.mark.parametrize("path", ["/calendar/{}/greens.ics", "/invitation/{}/"])
def test_nor_does_it_when_a_form_from_elsewhere_is_sent_there(path, db, caplog):
    with caplog.at_level(logging.WARNING):
        answer = Client(enforce_csrf_checks=True).post(path.format("s3cret-of-somebody"))
    assert (answer.status_code in (403, 405), "s3cret" in caplog.text, caplog.text != "") == (
        True,
        False,
        True,
    )


def test_a_page_that_breaks_does_not_log_the_secret(cast, as_, caplog, settings):
    """A time zone that does not exist breaks the calendar, as nothing else should."""
    secret = made(cast, as_)
    cast.club.time_zone, settings.FIXED_TODAY = "Nowhere/None", None
    cast.club.save()
    answer = Client(raise_request_exception=False).get(f"/calendar/{secret}/greens.ics")
    assert (answer.status_code, secret in caplog.text) == (500, False)
