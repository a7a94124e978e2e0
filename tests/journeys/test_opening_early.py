"""A day is promised too soon: proposed, warned of, decided on with a reason, and everybody hears of it."""

import re

from playwright.sync_api import Page, expect

from greens.models import Notice
from growin.models import Decision, Proposal
from tests.journeys import deeds

OPEN_DAY = "2026-04-18"
REASON = "The county day cannot be moved."


def test_a_promise_made_too_soon(phones, cast, complaints):
    committee, staff = phones("committee"), phones("staff")
    the_committee_proposes_a_day(committee, cast)
    it_is_warned_at_once(committee)
    it_opens_all_the_same_with_a_reason(committee)
    the_greenstaff_hear_of_it(staff, cast)
    assert complaints == []


def the_committee_proposes_a_day(committee: Page, cast) -> None:
    deeds.sign_in(committee, cast.committee.person.email)
    deeds.ask_whether_it_may_open(committee, cast.green.name)
    deeds.follow(committee, "Propose a day")
    committee.get_by_label("Limited play", exact=True).check()
    deeds.fill(committee, {"Opening on": OPEN_DAY})
    deeds.press(committee, "Propose this day")


def it_is_warned_at_once(committee: Page) -> None:
    """The chance in words with the histories behind it, what would be unmet, what early and late cost."""
    deeds.said(committee, "The day is proposed. What it would mean stands below.")
    main = committee.get_by_role("main")
    expect(main).to_contain_text(re.compile(r"(About|Less than) \d+ in \d+, on 1 open history"))
    picture = committee.get_by_role("img", name=re.compile("When it may be ready"))
    expect(picture).to_be_visible()
    expect(picture).not_to_have_js_property("naturalWidth", 0)
    unmet = main.get_by_role("listitem").filter(has_text="Rooting")
    expect(unmet.first).to_contain_text("Not known")
    deeds.said(committee, "Next inspection:")
    deeds.said(committee, "What opening early costs")
    deeds.said(committee, "more on the temporary green. The forecast has it ready")
    assert Proposal.objects.get().chance < 1


def it_opens_all_the_same_with_a_reason(committee: Page) -> None:
    deeds.follow(committee, "Decide on it")
    deeds.fill(committee, {"Those present": "Maeve Thorn, Bram Hazel"})
    deeds.press(committee, "Keep the decision")
    deeds.said(committee, "opening against it needs a reason")
    deeds.fill(committee, {"Reason": REASON})
    deeds.press(committee, "Keep the decision")
    deeds.said(committee, "Against the verdict.")
    deeds.said(committee, "Forecast then")
    assert Decision.objects.get().is_against_verdict


def the_greenstaff_hear_of_it(staff: Page, cast) -> None:
    deeds.sign_in(staff, cast.staff.person.email)
    deeds.said(staff, f"{cast.green.name}: opening decided against the verdict")
    deeds.said(staff, REASON)
    staff.get_by_role("button", name=re.compile("^Seen")).tap()
    expect(staff.get_by_role("main")).not_to_contain_text(REASON)
    assert Notice.objects.filter(seen_at=None).count() == Notice.objects.count() - 1
