"""Entering a green, and the particulars that may change."""

from decimal import Decimal

import pytest
from django.urls import reverse

from greens.models import Green, TrailLine

pytestmark = pytest.mark.django_db

EIGHTH = {"name": "Eighth", "position": "8", "distance_to_water_m": "12,5"}


def test_a_head_greenkeeper_enters_a_green(cast, as_):
    answer = as_("head").post(reverse("green_new", args=[cast.club.slug]), EIGHTH)
    green = Green.objects.get(club=cast.club, name="Eighth")
    assert answer.headers["Location"] == reverse("record", args=[cast.club.slug, green.pk])
    assert (green.position, green.distance_to_water_m, green.area_m2) == (8, Decimal("12.5"), None)
    line = TrailLine.objects.get(noun="green", noun_pk=green.pk)
    assert line.changes == {
        "name": [None, "Eighth"],
        "position": [None, 8],
        "distance_to_water_m": [None, 12.5],
    }


@pytest.mark.parametrize("role", ["staff", "committee", "adviser"])
def test_only_the_head_greenkeeper_writes_the_record(cast, as_, role):
    assert as_(role).post(reverse("green_new", args=[cast.club.slug]), EIGHTH).status_code == 403
    assert as_(role).get(reverse("record", args=[cast.club.slug, cast.green.pk])).status_code == 200


def test_a_renamed_green_leaves_a_line_with_from_and_to(cast, as_):
    address = reverse("green_change", args=[cast.club.slug, cast.green.pk])
    as_("head").post(address, {"name": "Burn", "position": "1", "distance_to_water_m": ""})
    cast.green.refresh_from_db()
    assert cast.green.name == "Burn"
    assert TrailLine.objects.get(noun="green").changes == {"name": ["Seventh", "Burn"]}


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        ({"name": "seventh"}, "already has a green called seventh"),
        ({"name": "x" * 5000}, "at most 60 characters (it has 5000)"),
        ({"name": "Tenth", "distance_to_water_m": "-3"}, "-3 m cannot be right"),
        ({"name": "Tenth", "distance_to_water_m": "far"}, "&#x27;far&#x27; is not a number"),
        ({"name": "Tenth", "position": "1e9"}, "cannot be right"),
        ({"name": ""}, "This field is required"),
    ],
)
def test_what_cannot_be_a_green_is_refused_with_a_sentence(cast, as_, form, sentence):
    page = as_("head").post(reverse("green_new", args=[cast.club.slug]), form)
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert Green.objects.filter(club=cast.club).count() == 1


def test_another_clubs_green_has_no_record_here(cast, as_):
    for name in ("record", "area", "green_change", "rebuild_new", "photograph_new"):
        assert as_("head").get(reverse(name, args=[cast.club.slug, cast.other_green.pk])).status_code == 404
    assert as_("outsider").get(reverse("record", args=[cast.club.slug, cast.green.pk])).status_code == 404


def test_a_number_that_no_green_can_have_is_not_found(cast, as_):
    address = f"/clubs/{cast.club.slug}/greens/{10**30}/record/"
    assert as_("head").get(address).status_code == 404
