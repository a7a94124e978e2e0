"""Taking a set whose green is chosen in the form, and what the keypad is handed."""

import json

import pytest

from greens import units
from greens.models import ReadingSet
from tests.cast import laid_green
from tests.growin.test_readings import address, sheet

pytestmark = pytest.mark.django_db


def test_one_sheet_serves_every_green_and_asks_which(cast, as_):
    place = address(cast, "take_on_a_green", "rooting_depth")
    sent = sheet(cast, values=["62", "55"])
    assert "Choose the green that was read." in as_("staff").post(place, sent).content.decode()
    theirs = as_("staff").post(place, sent | {"green": cast.other_green.pk})
    assert (theirs.status_code, ReadingSet.objects.count()) == (200, 0)
    as_("staff").post(place, sent | {"green": cast.green.pk})
    kept = ReadingSet.objects.get()
    assert (kept.green, kept.values) == (cast.green, [62, 55])


def test_places_stand_beside_the_values_that_were_written(cast, as_):
    """The second box stays empty: its place goes with it."""
    sent = sheet(cast, values=["62", "", "55", "71"], places="[[1,2],[9,9],null,[-3.04,0]]")
    as_("staff").post(address(cast, "take_reading", cast.green.pk, "rooting_depth"), sent)
    kept = ReadingSet.objects.get()
    assert (kept.values, kept.places) == ([62, 55, 71], [[1, 2], None, [-3, 0]])
    again = as_("staff").get(address(cast, "correct_reading", kept.pk)).content.decode()
    assert 'name="places" value="[[1.0,2.0],null,[-3.0,0.0]]"' in again


PLACED_WRONG = {
    "[[0,60]]": "place of core 1: 0 m across, 60 m up is not possible; it should be on the green, or at most",
    "[[0": "The places on the green cannot be read",
    "7": "The places on the green cannot be read",
    '[["x",1]]': "two figures in metres",
}


@pytest.mark.parametrize("places", PLACED_WRONG)
def test_a_place_off_the_green_is_refused_in_a_sentence_and_nothing_is_kept(places, cast, as_):
    sent = sheet(cast, values=["62"], places=places)
    page = as_("staff").post(address(cast, "take_reading", cast.green.pk, "rooting_depth"), sent)
    assert PLACED_WRONG[places] in page.content.decode()
    assert not ReadingSet.objects.exists()


def test_the_sheet_of_every_green_costs_the_same_for_one_and_for_eighteen(
    cast, as_, django_assert_num_queries
):
    client, place = as_("staff"), address(cast, "take_on_a_green", "rooting_depth")
    for _ in range(2):
        with django_assert_num_queries(10):
            page = client.get(place)
        for number in range(1, 18):
            laid_green(cast.club, f"Green {number} of {cast.club.greens.count()}")
    rule = {"of": 5, "places": "cores", "rule": "count", "wanted": 4, "at_least": 50.0}
    asked = json.loads(page.context["form"].terms)["greens"]
    assert len(asked) == 18
    assert [one["rules"] for one in asked.values()] == [[rule]] * 18


def test_a_phone_in_inches_is_told_how_to_make_millimetres_of_them(cast, as_):
    type(cast.club).objects.update(units="us")
    form = as_("staff").get(address(cast, "take_reading", cast.green.pk, "rooting_depth")).context["form"]
    with units.shown_in("us"):
        told = json.loads(form.terms)["unit"]
    assert told == {"sign": "in", "per": 25.4, "from": 0.0, "places": None}
