"""Real greens entered as a club enters them, their programme drawn on the day of sowing or laying.

The histories are club diaries, place and names left out; their normals are of the place, from memory,
within 1 °C, and are not that year's weather. So the real opening may lie three weeks beside the window.
"""

import json
from datetime import date, timedelta
from pathlib import Path

import pytest
from django.test import Client
from django.urls import reverse

from greens.actions.area import measure_area
from greens.actions.club import found_club, set_normals
from greens.actions.establishment import start_establishment
from greens.actions.green import create_green
from greens.choices import AreaMethod
from greens.models import Establishment
from growin.actions.programme import issue_programme
from growin.agronomy.plain_words import day
from growin.agronomy.programme import programme_from_file
from tests.cast import person

pytestmark = pytest.mark.django_db
KEPT = Path(__file__).parents[1] / "agronomy" / "histories.json"
HISTORIES = {one["id"]: one for one in json.loads(KEPT.read_text("utf-8"))["histories"]}
SOWN_IN_MAY = HISTORIES["open-01"]
TOLERANCE = timedelta(days=21)
OPENING, FIRST_CUT = "inspection-opening", "cut-first-9.5"


@pytest.fixture
def entered(settings):
    """``entered(history)`` is that green's rebuild in a club of its own, with a programme."""

    def enter(history: dict) -> Establishment:
        green = history["green"]
        settings.FIXED_TODAY = date.fromisoformat(green["established_on"])
        head = found_club(
            name="Marram Links",
            head=person("Isla Rowan"),
            latitude_deg=green["latitude_deg"],
            time_zone="Europe/London",
        )
        set_normals(club=head.club, by=head, means_c=history["normals_c"], rain_mm=[None] * 12)
        rebuilt = rebuild(head, green, settings.FIXED_TODAY)
        issue_programme(establishment=rebuilt, by=head, on=settings.FIXED_TODAY)
        return rebuilt

    return enter


def rebuild(head, green: dict, on: date) -> Establishment:
    place = create_green(club=head.club, by=head, name="Seventh", position=7)
    measure_area(green=place, by=head, method=AreaMethod.TYPED, area_m2=green["area_m2"], measured_on=on)
    kind, species = green["establishment"], green["species"]
    begun = on - timedelta(days=30)
    return start_establishment(
        green=place, by=head, kind=kind, species=species, works_started_on=begun, established_on=on
    )


def window(rebuilt: Establishment, key: str) -> tuple[date, date, date]:
    """Earliest, likely and latest day of a step."""
    step = rebuilt.programmes.get().steps.get(key=key)
    return step.earliest, step.likely, step.latest


@pytest.mark.parametrize("history", HISTORIES.values(), ids=list(HISTORIES))
def test_the_real_opening_lies_in_the_window_or_three_weeks_beside_it(history, entered):
    earliest, _, latest = window(entered(history), OPENING)
    assert earliest - TOLERANCE <= date.fromisoformat(history["opened_on"]) <= latest + TOLERANCE


def test_bent_sown_in_may_has_its_real_opening_inside_the_window(entered):
    """Sown 2 May 2025, in full play on 22 July: the diary of a club."""
    earliest, _, latest = window(entered(SOWN_IN_MAY), OPENING)
    assert earliest <= date(2025, 7, 22) <= latest


def test_bent_sown_in_may_is_likely_ready_within_the_published_span(entered):
    """84 to 120 days of favourable growing weather from seed: USGA Green Section 2008, 2018, 2019."""
    rebuilt = entered(SOWN_IN_MAY)
    _, likely, _ = window(rebuilt, OPENING)
    assert 84 <= (likely - rebuilt.established_on).days <= 120


def test_bent_sown_in_warmth_is_first_cut_when_the_diaries_cut_it(entered):
    """13, 16 and 19 days after sowing bent: club diaries."""
    rebuilt = entered(HISTORIES["open-02"])
    _, likely, _ = window(rebuilt, FIRST_CUT)
    assert 13 <= (likely - rebuilt.established_on).days <= 19


def test_the_site_says_what_the_command_line_says(entered):
    """Nothing is lost on the way through record, settings and database."""
    history = SOWN_IN_MAY
    read = {"green": history["green"], "weather": {"normals_c": history["normals_c"], "daily": []}}
    drawn = {
        step["key"]: (step["earliest"], step["likely"], step["latest"], step["amount"])
        for step in programme_from_file(read)["steps"]
    }
    kept = entered(history).programmes.get().steps.all()
    said = {
        step.key: (step.earliest.isoformat(), step.likely.isoformat(), step.latest.isoformat(), step.amount)
        for step in kept
    }
    assert said == drawn


def test_the_page_says_when_it_may_open_and_within_what_span(entered):
    rebuilt = entered(SOWN_IN_MAY)
    club = rebuilt.green.club
    head = Client()
    head.force_login(club.memberships.get().person)
    page = head.get(reverse("step", args=[club.slug, rebuilt.green_id, OPENING])).content.decode()
    assert "Opening, if every bar is met and the committee decides it" in page
    earliest, likely, latest = (day(one) for one in window(rebuilt, OPENING))
    assert f"{likely} 2025; between {earliest} and {latest}" in page
