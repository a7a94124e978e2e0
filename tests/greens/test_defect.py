"""Defects for the contractor: noted, due, put right."""

from datetime import date

import pytest
from django.urls import reverse

from greens.actions.defect import note_defect, put_right
from greens.models import Defect, TrailLine

pytestmark = pytest.mark.django_db

LOW = {
    "what": "Low spot by the bunker",
    "place": "left front",
    "found_on": "2026-04-10",
    "due_on": "2026-04-30",
}


def noted(cast, **form):
    values = {"what": "Low spot", "found_on": date(2026, 4, 1), "due_on": date(2026, 4, 10)} | form
    return note_defect(establishment=cast.establishment, by=cast.head, **values)


def test_a_defect_is_noted_with_its_day(cast, as_):
    as_("head").post(reverse("defect_new", args=[cast.club.slug, cast.establishment.pk]), LOW)
    row = Defect.objects.get()
    assert (row.what, row.place, row.due_on, row.put_right_on) == (
        "Low spot by the bunker",
        "left front",
        date(2026, 4, 30),
        None,
    )


def test_a_defect_past_its_day_says_so_until_it_is_put_right(cast, as_):
    defect, address = noted(cast), reverse("record", args=[cast.club.slug, cast.green.pk])
    assert "Overdue since Fri 10 April 2026" in as_("committee").get(address).content.decode()
    as_("head").post(reverse("put_right", args=[cast.club.slug, defect.pk]), {"on": "2026-04-14"})
    assert "Put right Tue 14 April 2026" in as_("committee").get(address).content.decode()


def test_open_defects_stand_before_those_put_right(cast, as_):
    done, late = noted(cast, what="Torn joint"), noted(cast, what="Pipe not covered", due_on=date(2026, 5, 1))
    put_right(defect=done, by=cast.head, on=date(2026, 4, 5))
    page = as_("staff").get(reverse("record", args=[cast.club.slug, cast.green.pk])).content.decode()
    assert page.index(late.what) < page.index(done.what)


def test_a_defect_may_be_opened_again(cast, as_):
    defect = noted(cast)
    put_right(defect=defect, by=cast.head, on=date(2026, 4, 5))
    as_("head").post(reverse("put_right", args=[cast.club.slug, defect.pk]), {"on": ""})
    defect.refresh_from_db()
    assert defect.put_right_on is None
    assert list(TrailLine.objects.filter(noun="defect").values_list("deed", flat=True)) == [
        "Opened again: Low spot",
        "Put right: Low spot",
        "Noted a defect: Low spot",
    ]


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        ({"what": "x" * 5000}, "at most 300 characters (it has 5000)"),
        ({"found_on": "2026-04-17"}, "lies in the future"),
        ({"found_on": "2025-09-01"}, "the first day possible here"),
        ({"due_on": "2026-04-01"}, "lies before the day it was found"),
    ],
)
def test_a_defect_that_cannot_be_is_refused_with_a_sentence(cast, as_, form, sentence):
    page = as_("head").post(reverse("defect_new", args=[cast.club.slug, cast.establishment.pk]), LOW | form)
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert not Defect.objects.exists()


def test_another_clubs_defect_does_not_exist_here(cast, as_):
    theirs = note_defect(
        establishment=cast.other_establishment,
        by=cast.outsider,
        what="Theirs",
        found_on=cast.today,
        due_on=cast.today,
    )
    for name in ("defect", "put_right"):
        assert as_("head").post(reverse(name, args=[cast.club.slug, theirs.pk]), LOW).status_code == 404
