"""Heights of cut, planned and cut, as a picture with its words."""

from datetime import date
from xml.etree import ElementTree

import pytest
from django.urls import reverse

from greens.actions.diary import record_work
from growin.actions.programme import issue_programme
from growin.charts.ladder import ladder_svg
from growin.queries.ladder import Ladder, ladder

pytestmark = pytest.mark.django_db


@pytest.fixture
def drawn(cast):
    return issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)


def cut(cast, on: date, height_mm: float):
    said = {"kind": "cut", "on": on, "greens": [cast.green], "details": {"height_mm": height_mm}}
    return record_work(club=cast.club, by=cast.staff, done_by=cast.staff, **said)


def test_the_rungs_go_down_as_autumn_turf_does(cast, drawn):
    """8 mm over winter, 7 in mid-March, 6 by opening: club practice."""
    heights = [rung.height_mm for rung in ladder(cast.establishment).rungs]
    assert heights == sorted(heights, reverse=True)
    by_height = {rung.height_mm: rung.likely for rung in ladder(cast.establishment).rungs}
    assert {8.0, 7.0, 6.0} <= set(by_height)
    assert date(2026, 3, 8) <= by_height[7.0] <= date(2026, 3, 25)


def test_the_picture_says_in_words_what_it_shows(cast, drawn):
    cut(cast, date(2026, 4, 2), 6.5)
    said = ladder(cast.establishment).in_words
    assert said.startswith("Heights of cut. Planned from 11 mm on Thu 6 November")
    assert "Last cut at 6.5 mm on Thu 2 April." in said
    assert "The earliest day the green may open: Wed 1 April." in said


def test_a_cut_without_a_programme_is_shown_too(cast):
    cut(cast, date(2026, 4, 2), 6.5)
    found = ladder(cast.establishment)
    assert [(one.on, one.height_mm) for one in found.cuts] == [(date(2026, 4, 2), 6.5)]
    assert ElementTree.fromstring(ladder_svg(found)).tag.endswith("svg")


def test_the_same_facts_draw_the_same_bytes(cast, drawn):
    cut(cast, date(2026, 4, 2), 6.5)
    first, second = (ladder_svg(ladder(cast.establishment)) for _ in range(2))
    assert first == second
    assert ladder_svg(Ladder()).startswith(b"<?xml")


def test_the_picture_is_served_as_an_image_to_all_who_read(cast, as_, drawn):
    address = reverse("ladder", args=[cast.club.slug, cast.green.pk])
    for role in ("staff", "committee", "adviser"):
        answer = as_(role).get(address)
        assert (answer.status_code, answer.headers["Content-Type"]) == (200, "image/svg+xml")
    assert as_("outsider").get(address).status_code == 404


def test_the_table_stands_behind_the_picture(cast, as_, drawn):
    cut(cast, date(2026, 4, 2), 6.5)
    shown = as_("committee").get(reverse("programme", args=[cast.club.slug, cast.green.pk])).content.decode()
    assert "The heights as a table" in shown
    assert "6.5 mm" in shown
