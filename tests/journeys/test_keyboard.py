"""Without a mouse: the Tab key reaches everything in the order of the page, and shows where it stands."""

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from greens.models import Entry, ReadingSet

IN_FOCUS = "document.activeElement"
RING_PX = f"""() => {{
  const stands = {IN_FOCUS}.closest(".option, .tick, .picture") ?? {IN_FOCUS};
  return Math.max(...[{IN_FOCUS}, stands].map((one) => getComputedStyle(one))
    .map((style) => style.outlineStyle === "none" ? 0 : parseFloat(style.outlineWidth)));
}}"""


@pytest.fixture
def at(page: Page, enter, cast):
    """``at("log")`` opens that page of the club as a greenkeeper, with nothing but a keyboard."""
    url = enter("staff")
    return lambda name, *args: page.goto(url + reverse(name, args=[cast.club.slug, *args])) and page


def tab_to(page: Page, wanted) -> None:
    """Tab until it is in focus, as somebody would who cannot point at it."""
    for _ in range(80):
        page.keyboard.press("Tab")
        if wanted.evaluate(f"one => one === {IN_FOCUS}"):
            return
    raise AssertionError(f"Tab never reaches {wanted}")


def press_on(page: Page, wanted, key: str) -> None:
    tab_to(page, wanted)
    page.keyboard.press(key)


def test_the_first_stop_skips_to_the_page(at):
    page = at("today")
    page.keyboard.press("Tab")
    skip = page.get_by_role("link", name="To the page")
    expect(skip).to_be_focused()
    expect(skip).to_be_in_viewport()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate(f"document.querySelector('main').contains({IN_FOCUS})")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_stop_shows_where_it_is(scheme, at):
    page = at("log_work", "cut")
    page.emulate_media(color_scheme=scheme)
    rings = []
    page.keyboard.press("Tab")
    while page.evaluate(f"{IN_FOCUS} !== document.body") and len(rings) < 60:
        rings.append(page.evaluate(RING_PX))
        page.keyboard.press("Tab")
    assert len(rings) > 10
    assert min(rings) >= 2


def test_a_cut_is_logged_by_keyboard(at):
    page = at("today")
    press_on(page, page.get_by_role("link", name="Log work"), "Enter")
    kinds = page.get_by_role("navigation", name="Most used kinds of work")
    press_on(page, kinds.get_by_role("link", name="Cut"), "Enter")
    tab_to(page, page.get_by_label("Height of cut on the bench"))
    page.keyboard.type("7.5")
    press_on(page, page.get_by_role("button", name="Keep it"), "Enter")
    expect(page.get_by_text("Kept.")).to_be_visible()
    assert Entry.objects.get().details["height_mm"] == 7.5


def test_yes_and_no_are_answered_by_keyboard(at, cast):
    page = at("take_reading", cast.green.pk, "hole")
    press_on(page, page.get_by_role("button", name="yes", exact=True), "Space")
    press_on(page, page.get_by_role("button", name="no", exact=True), "Space")
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Enter")
    press_on(page, page.get_by_role("button", name="Keep the readings"), "Enter")
    expect(page.get_by_text("The readings are kept.")).to_be_visible()
    assert ReadingSet.objects.get().values == [True, False, True]
