"""The whole job, on phones: the record of a rebuilt green, its programme, work and readings, the verdict."""

import re
from datetime import timedelta

import pytest
from playwright.sync_api import Page, expect

from greens.actions.weather import record_day
from growin.agronomy.measures import MEASURES
from growin.models import Decision
from tests.cast import NORMALS_C
from tests.growin.ripe import HEIGHT_MM, HEIGHTS_ON, READINGS, read
from tests.journeys import deeds

CHAPEL = "Chapel"
RADII_M = [11, 13] * 6  # π × the mean of their squares: 455.5 m²
LEVELS_MM = {
    "Excavation below finished level": "430 428 435 431",
    "Gravel blanket": "104 106 103 105",
    "Rootzone": "300, 305, 240, 298",
}
DRAINS = (
    {"Pipe": 100, "Least continuous fall": 0.8},
    {"Apart": 5, "Pipe": 100, "Least continuous fall": 0.6},
)
TURF = {"Grower, or where it was lifted": "Ling Turf", "Cut thickness": 25, "Grasses": "fescue 60\nbent 40"}

WHOLE_SET = READINGS | {"height": [HEIGHT_MM] * 3}
ON_THE_DAY = ("hand_pull", "rooting_depth", "joint_gap", "joint_proud", "height")


@pytest.fixture
def before_anything(cast):
    """The club has its people and nothing else."""
    cast.club.normals.all().delete()
    cast.club.greens.all().delete()
    return cast


def test_from_a_rebuilt_green_to_ready_and_why(phones, before_anything, complaints):
    cast = before_anything
    head, staff, committee = (phones(role) for role in ("head", "staff", "committee"))
    the_head_enters_the_record(head, cast.head.person.email)
    the_record_is_judged_row_by_row(head)
    the_head_draws_the_programme(head)
    the_staff_answer_the_day(staff, cast.staff.person.email)
    the_staff_read_the_green(staff)
    the_committee_reads_the_verdict(committee, cast.committee.person.email)
    nobody_opens_it_against_the_verdict_without_a_reason(committee)
    the_rest_is_known(cast)
    the_committee_opens_it(committee)
    assert complaints == []


def the_head_enters_the_record(head: Page, email: str) -> None:
    deeds.sign_in(head, email)
    deeds.enter_normals(head, NORMALS_C)
    deeds.enter_green(head, CHAPEL, 8)
    deeds.measure_by_radii(head, RADII_M)
    deeds.said(head, "455.5 m²")
    deeds.enter_rebuild(head, "turf from a grower", "fescue/bent", "2025-09-08", "2025-10-20")
    deeds.paste_levels(head, LEVELS_MM)
    deeds.enter_drains(head, *DRAINS)
    deeds.enter_turf(head, TURF)


def the_record_is_judged_row_by_row(head: Page) -> None:
    """300 mm of rootzone, 25 mm more or less: USGA, Recommendations for Putting Green Construction."""
    out = head.get_by_role("listitem").filter(has_text="It dries sooner")
    expect(out).to_contain_text("240–305 mm at 4 places, 1 of them out; wanted 275–325 mm.")
    section = head.get_by_role("img", name=re.compile("rootzone", re.IGNORECASE))
    expect(section).to_be_visible()
    expect(section).not_to_have_js_property("naturalWidth", 0)


def the_head_draws_the_programme(head: Page) -> None:
    deeds.draw_programme(head, CHAPEL)
    deeds.said(head, "Opening, if every bar is met and the committee decides it")
    deeds.said(head, "Hand watering")


def the_staff_answer_the_day(staff: Page, email: str) -> None:
    deeds.sign_in(staff, email)
    deeds.said(staff, "Thu 16 April 2026")
    deeds.done_as_planned(staff, "Light roll", CHAPEL)
    deeds.said(staff, "Done: Light roll")
    assert deeds.log_cut(staff, CHAPEL, HEIGHT_MM) <= 6
    deeds.said(staff, "5.5 mm")
    deeds.log_not_done(staff, CHAPEL)
    deeds.said(staff, "Not done")


def the_staff_read_the_green(staff: Page) -> None:
    deeds.open_green(staff, CHAPEL)
    deeds.follow(staff, "Take readings")
    for key in ON_THE_DAY:
        deeds.take_readings(staff, MEASURES[key], WHOLE_SET[key])
        deeds.follow(staff, "Another reading")


def the_committee_reads_the_verdict(committee: Page, email: str) -> None:
    deeds.sign_in(committee, email)
    deeds.ask_whether_it_may_open(committee, CHAPEL)
    deeds.said(committee, "Not ready")
    held_back = committee.get_by_role("list").filter(has_text="14 wanted").first.get_by_role("listitem")
    expect(held_back).to_have_count(3)
    expect(held_back.nth(0)).to_contain_text("Opening height of 5.5 mm held for 0 days")
    deeds.said(committee, "3 of 10 bars met; height not met, 6 not known.")


def nobody_opens_it_against_the_verdict_without_a_reason(committee: Page) -> None:
    deeds.decide(committee, "Alternate days", "Maeve Thorn, Bram Hazel")
    deeds.said(committee, "The verdict today is “not ready”: opening against it needs a reason.")
    assert not Decision.objects.exists()


def the_rest_is_known(cast) -> None:
    """What the staff did not read on the day, two weeks at opening height, ten days of weather: as rows."""
    cast.green = cast.club.greens.get()
    for measure in set(WHOLE_SET) - set(ON_THE_DAY):
        read(cast, measure, WHOLE_SET[measure], cast.today)
    for back in HEIGHTS_ON:
        read(cast, "height", WHOLE_SET["height"], cast.today - timedelta(days=back))
    for back in range(10):
        on = cast.today - timedelta(days=back)
        record_day(club=cast.club, by=cast.head, on=on, min_c=5, max_c=15)


def the_committee_opens_it(committee: Page) -> None:
    deeds.ask_whether_it_may_open(committee, CHAPEL)
    deeds.said(committee, "Ready")
    deeds.decide(committee, "Alternate days", "Maeve Thorn, Bram Hazel")
    deeds.way(committee, "Greens")
    row = committee.get_by_role("listitem").filter(has_text=CHAPEL)
    expect(row).to_contain_text("In play")
    expect(row).to_contain_text("alternate days since Thu 16 April")
