"""Phones on a thin line to a site that is served for real, and what is done on them."""

from collections.abc import Iterator
from pathlib import Path
from secrets import token_hex

import pytest
from playwright.sync_api import Page, expect

from tests.cast import PASSWORD
from tests.empty_database import copy_of
from tests.real_site import DATABASE, Site
from tests.services import free_port
from tests.thin_line import Line, line_to

PHONE = {"width": 360, "height": 740}
FURNISH = f"""
import django; django.setup()
from datetime import date
from tests.cast import whole_cast
from growin.actions.programme import issue_programme
cast = whole_cast()
issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
for role in ("staff", "head"):
    one = cast[role].person
    one.email = role + "@example.org"
    one.set_password({PASSWORD!r})
    one.save()
"""
CLUB = "/clubs/marram-links"
CUT = f"{CLUB}/diary/log/cut/"
ENTRIES = "SELECT count(*) FROM greens_entry"
LOGGED = ("greens_entrygreen", "greens_entry", "greens_arrival", "growin_stepanswer", "django_session")
#: Such a browser copies no pages for days without signal; those that do are tried in test_pocket.py.
KEEPS_NO_COPIES = "delete window.caches; delete Navigator.prototype.serviceWorker;"
HAS_COPIES = """async () => {
  const has = () => localStorage.getItem("pocket copies of") && navigator.serviceWorker.controller;
  while (!has()) await new Promise((done) => { setTimeout(done, 100); });
}"""
SLIPS = "async () => (await (await import('/static/greens/js/pocket/slips.js')).all()).length"


@pytest.fixture(scope="module")
def furnished(empty_database, tmp_path_factory) -> Path:
    """The database of a site with the cast and a programme."""
    folder = tmp_path_factory.mktemp("pocket")
    database = copy_of(empty_database, folder / DATABASE)
    Site(folder).do("-c", FURNISH)
    return database


@pytest.fixture
def own_site(furnished, tmp_path) -> Site:
    """A site that one test may break."""
    return copied(furnished, tmp_path)


@pytest.fixture(scope="module")
def served(furnished, tmp_path_factory) -> Iterator[tuple[Site, Line]]:
    site, port = copied(furnished, tmp_path_factory.mktemp("served")), free_port()
    with site.served(port), line_to(port) as line:
        yield site, line


@pytest.fixture
def site(served) -> Site:
    """A site in which nobody logged anything yet."""
    site, _ = served
    for table in LOGGED:
        site.change(f"DELETE FROM {table}")
    site.change(f"UPDATE greens_club SET trail_mark = '{token_hex(8)}'")
    return site


@pytest.fixture
def line(served) -> Line:
    return served[1]


@pytest.fixture
def phone_of(new_context, site, line):
    """``phone_of("staff")``: signed in, with its copies unless it keeps none, on the page of the day."""

    def taken(role: str = "staff", *, keeps_copies: bool = True) -> Page:
        page = new_context(viewport=PHONE, has_touch=True, is_mobile=True, base_url=line.address).new_page()
        if not keeps_copies:
            page.add_init_script(KEEPS_NO_COPIES)
        sign_in(page, role)
        if keeps_copies:
            page.evaluate(HAS_COPIES)
        return page

    return taken


def copied(database: Path, folder: Path) -> Site:
    copy_of(database, folder / DATABASE)
    return Site(folder)


def sign_in(page: Page, role: str) -> None:
    page.goto("/sign-in/")
    page.get_by_label("E-mail").fill(f"{role}@example.org")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/today/")


def log_cut(page: Page, height_mm: str) -> None:
    page.goto(CUT)
    page.get_by_role("checkbox", name="Seventh", exact=True).check()
    page.get_by_label("Height of cut on the bench").fill(height_mm)
    page.get_by_role("button", name="Keep it").tap()


def log_without_signal(page: Page, *heights_mm: str) -> None:
    page.context.set_offline(True)
    for height_mm in heights_mm:
        log_cut(page, height_mm)
        expect(page.locator("[data-said]")).to_contain_text("It is sent when there is signal")


ASKED_FOR = "() => navigator.serviceWorker.ready.then((one) => one.sync.getTags())"


def woken_by(page: Page, asking: Page):
    """A call that fires what ``asking`` has asked the browser for once there is signal (background sync)."""
    origin, found = "/".join(asking.url.split("/")[:3]), []
    while asking.evaluate(ASKED_FOR) != ["pocket"]:
        asking.wait_for_timeout(50)
    browser = page.context.new_cdp_session(page)
    browser.on("ServiceWorker.workerRegistrationUpdated", lambda told: found.extend(told["registrations"]))
    browser.send("ServiceWorker.enable")

    def woken() -> None:
        known = next(one["registrationId"] for one in reversed(found) if not one["isDeleted"])
        fired = {"origin": origin, "registrationId": known, "tag": "pocket", "lastChance": False}
        browser.send("ServiceWorker.dispatchSyncEvent", fired)

    return woken


def arrive(page: Page) -> None:
    """There is signal again."""
    page.context.set_offline(False)
    page.goto(f"{CLUB}/pocket/")
    expect(page.locator("[data-none]")).to_be_visible()


def heights(site: Site) -> list[float]:
    with site.database() as database:
        return sorted(
            row[0]
            for row in database.execute("SELECT json_extract(details, '$.height_mm') FROM greens_entry")
        )
