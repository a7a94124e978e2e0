"""The rebuild: its dates, its grass, and the one in twelve years."""

from datetime import date

import pytest
from django.urls import reverse

from greens.models import Establishment, Green
from tests.entries import logged

pytestmark = pytest.mark.django_db

SOWN = {
    "works_started_on": "2025-08-01",
    "kind": "seed",
    "species": "creeping bent",
    "established_on": "2025-09-01",
    "summer_height_mm": "3.5",
    "seed_rate_g_m2": "7",
}


@pytest.fixture
def bare(cast) -> Green:
    return Green.objects.create(club=cast.club, name="Ninth", position=9)


def test_a_rebuild_may_be_entered_while_it_is_still_being_built(cast, as_, bare):
    form = {"works_started_on": "2026-03-02", "kind": "turf_nursery", "species": "fescue/bent"}
    as_("head").post(reverse("rebuild_new", args=[cast.club.slug, bare.pk]), form)
    row = bare.establishments.get()
    assert (row.number, row.works_started_on, row.established_on) == (1, date(2026, 3, 2), None)


def test_the_next_rebuild_leaves_the_first_as_it_was(cast, as_):
    green = cast.green
    form = {"works_started_on": "2026-02-02", "kind": "seed", "species": "creeping bent"}
    as_("head").post(reverse("rebuild_new", args=[cast.club.slug, green.pk]), form)
    rows = green.establishments.order_by("number").values_list("number", "kind", "works_started_on")
    assert list(rows) == [
        (1, "turf_supplied", date(2025, 9, 8)),
        (2, "seed", date(2026, 2, 2)),
    ]
    page = as_("committee").get(reverse("record", args=[cast.club.slug, green.pk])).content.decode()
    assert "Rebuild of 2025" in page and "Rebuild of 2026" in page


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"works_started_on": "2027-01-01"}, "lies in the future"),
        ({"established_on": "2025-07-01"}, "Tue 1 July 2025 lies before Fri 1 August 2025"),
        ({"established_on": "2026-05-01"}, "lies in the future"),
        ({"maintenance_ends_on": "2025-08-20"}, "Wed 20 August 2025 lies before Mon 1 September 2025"),
        ({"kind": "turf_washed"}, "Turf has no seed rate"),
        ({"kind": "astroturf"}, "Select a valid choice"),
        ({"summer_height_mm": "80"}, "80 mm cannot be right"),
        ({"works_started_on": "the spring"}, "This is not a day"),
        ({"works_started_on": ""}, "This field is required"),
    ],
)
def test_what_cannot_be_a_rebuild_is_refused_with_a_sentence(cast, as_, bare, changes, sentence):
    page = as_("head").post(reverse("rebuild_new", args=[cast.club.slug, bare.pk]), SOWN | changes)
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert not bare.establishments.exists()


def test_rebuilds_of_one_green_do_not_run_into_each_other(cast, as_):
    new = reverse("rebuild_new", args=[cast.club.slug, cast.green.pk])
    page = as_("head").post(new, SOWN | {"works_started_on": "2025-10-01", "established_on": ""})
    assert "the first day possible here" in page.content.decode()
    assert Establishment.objects.filter(green=cast.green).count() == 1


@pytest.mark.parametrize("laid", ["2026-04-17", ""])
def test_it_was_laid_by_the_day_of_its_first_cut(cast, as_, laid, settings):
    logged(cast)
    settings.FIXED_TODAY = date(2026, 4, 20)
    form = {"works_started_on": "2025-09-08", "kind": "turf_supplied", "species": "fescue/bent"}
    place = reverse("rebuild_change", args=[cast.club.slug, cast.establishment.pk])
    page = as_("head").post(place, form | {"established_on": laid}).content.decode()
    assert "Cuts or readings are logged from Thu 16 April 2026; it was laid or sown by then." in page
    assert Establishment.objects.get(pk=cast.establishment.pk).established_on == date(2025, 10, 20)
