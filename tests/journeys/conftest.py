"""A real browser on a site that really serves; every test in this folder is marked ``browser``."""

import os
import shutil
from pathlib import Path

import pytest
from django.test import Client
from playwright.sync_api import BrowserContext, Page, expect

from tests.cast import PASSWORD
from tests.journeys.pocket import KEEPS_NO_COPIES, furnished, line, own_site, phone_of, served, site  # noqa: F401

os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")  # the browser's loop runs in the test's own thread
expect.set_options(timeout=20_000)  # a loaded machine is slow, not wrong
HERE = Path(__file__).parent
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
PHONE, DESK = {"width": 360, "height": 740}, {"width": 1280, "height": 900}
QUIET = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-dev-shm-usage"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync"),
)


def pytest_collection_modifyitems(items):
    for item in items:
        if HERE in item.path.parents:
            item.add_marker(pytest.mark.browser)
            item.add_marker(pytest.mark.django_db(transaction=True))


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args):
    """The system's own chromium, so that nothing is downloaded for a test."""
    if CHROMIUM is None:
        pytest.skip("no chromium on this machine")
    return browser_type_launch_args | {"executable_path": CHROMIUM, "args": list(QUIET)}


@pytest.fixture
def context(context: BrowserContext) -> BrowserContext:
    """A browser as some are: after signing in, one that copies asks for the sixty pages of a phone."""
    context.add_init_script(KEEPS_NO_COPIES)
    return context


@pytest.fixture
def phone(page: Page) -> Page:
    page.set_viewport_size(PHONE)
    return page


@pytest.fixture
def enter(live_server, cast, context):
    """``enter("staff")`` signs the browser in as that member of the cast."""

    def entered(role: str) -> str:
        client = Client()
        client.force_login(cast[role].person)
        cookie = client.cookies["sessionid"].value
        context.add_cookies([{"name": "sessionid", "value": cookie, "url": live_server.url}])
        return live_server.url

    return entered


@pytest.fixture
def phones(live_server, cast, new_context, complaints):
    """``phones("staff")`` is that member's own phone, showing the page on which one signs in."""

    def taken(role: str) -> Page:
        cast[role].person.set_password(PASSWORD)
        cast[role].person.save()
        own = new_context(viewport=PHONE, has_touch=True, is_mobile=True, base_url=live_server.url)
        own.add_init_script(KEEPS_NO_COPIES)
        listen(own, complaints)
        page = own.new_page()
        page.goto("/sign-in/")
        return page

    return taken


@pytest.fixture
def complaints(context):
    """What the browser's console said: a blocked script or style, a missing file, an error."""
    heard: list[str] = []
    listen(context, heard)
    return heard


#: The browser complains of every answer that says no; ours to a form is one of those.
A_NO = "status of 422"


def listen(context: BrowserContext, heard: list[str]) -> None:
    def note(said) -> None:
        if said.type in ("error", "warning") and A_NO not in said.text:
            heard.append(said.text)

    context.on("console", note)
    context.on("weberror", lambda wrong: heard.append(str(wrong.error)))
