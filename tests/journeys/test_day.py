"""The day's work on a phone: kept in at most three taps from the home screen, many greens at once."""

import re
from datetime import date

import pytest
from playwright.sync_api import expect

from greens.models import Entry, Establishment
from growin.actions.programme import add_step, issue_programme
from tests.cast import laid_green
from tests.entries import at, label
from tests.journeys.deeds import follow, press, said
from tests.journeys.looked_at import barred, misfits

MOST_TAPS = 3


@pytest.fixture
def three_greens(cast):
    """Each with its programme, and a feed of 20 kg N/ha due today by hand; one product brings it."""
    label(cast, "Match 10-0-0", lines={"N_total": 10})
    for name, area in (("Fourth", 540), ("Ninth", 360)):
        laid_green(cast.club, name, area_m2=area)
    for green in cast.club.greens.all():
        rebuild = green.establishments.get()
        issue_programme(establishment=rebuild, by=cast.head, on=cast.today)
        where = {"establishment": rebuild, "by": cast.head, "on": cast.today, "likely": cast.today}
        add_step(**where, kind="feed", what="Feed for the match", amount=20, unit="kg N/ha")


@pytest.fixture
def home(phones, enter, three_greens, cast):
    """A phone whose person is signed in, as it opens from the home screen; it counts taps."""
    phone = phones("staff")
    enter_in(phone, enter, cast)
    phone.add_init_script(
        "addEventListener('click', () => sessionStorage.taps = Number(sessionStorage.taps || 0) + 1, true)"
    )
    phone.goto(phone.evaluate("location.origin") + at(cast, "today"))
    return phone


def enter_in(phone, enter, cast) -> None:
    phone.get_by_label("E-mail").fill(cast.staff.person.email)
    phone.get_by_label("Password").fill("gorse-and-heather")
    press(phone, "Sign in")
    phone.wait_for_url("**/today/")


def taps(phone) -> int:
    return int(phone.evaluate("sessionStorage.taps || 0"))


def test_the_first_work_is_kept_in_at_most_three_taps(home):
    follow(home, "Log work")
    press(home, "Walked it, all well")
    said(home, "Kept.")
    assert (Entry.objects.get().kind, taps(home) <= MOST_TAPS) == ("walk", True)


def test_a_feed_on_three_greens_is_one_tap_and_one_more_takes_it_back(home):
    tap = home.get_by_role("button").filter(has_text="Done as planned: Fed, 3 greens, 20 kg N/ha")
    tap.tap()
    said(home, "Kept. Fed: Seventh, Fourth, Ninth.")
    assert (taps(home), Entry.objects.get().products.get().amount) == (1, 27_000)
    press(home, "Take back")
    said(home, "It no longer counts.")
    expect(tap).to_be_visible()


def test_nothing_on_the_day_its_sheet_or_the_form_for_many_bars_anybody(home, cast):
    found = {}
    for page in (at(cast, "today"), at(cast, "day_sheet"), at(cast, "log_work", "feed") + "?due=feed+20"):
        home.goto(page)
        found[page] = misfits(home) + barred(home)
    assert found == dict.fromkeys(found, [])


def test_the_sheet_of_eighteen_greens_takes_two_pages_of_paper_at_most(page, enter, cast):
    """Every green with all that is due in the middle of a grow-in, and readings left undone since March."""
    for number in range(1, 18):
        laid_green(cast.club, f"Hole {number}", area_m2=380 + 11 * number)
    for rebuild in Establishment.objects.filter(green__club=cast.club):
        issue_programme(establishment=rebuild, by=cast.head, on=date(2026, 3, 20))
    page.goto(enter("head") + at(cast, "day_sheet"))
    paper = page.pdf(format="A4", prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b", paper)) <= 2


def test_what_each_green_has_is_shown_while_it_is_typed(home, cast):
    home.goto(at(cast, "log_work", "feed"))
    follow(home, "All greens")
    line = home.get_by_role("group", name="Product", exact=True)
    line.get_by_label("Product").select_option(index=1)
    line.get_by_label("Amount").fill("50")
    line.get_by_label("In", exact=True).select_option("m2")
    expect(line).to_contain_text("Seventh 22.5 kg, Fourth 27 kg, Ninth 18 kg; 67.5 kg in all.")
