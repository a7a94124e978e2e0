"""Defects for the contractor: noted, due, put right."""

from datetime import date

import pytest
from django.urls import reverse

from greens.actions.defect import note_defect, put_right
from greens.actions.diary import correct_work, record_work, take_back
from greens.models import Defect, TrailLine
from tests.cast import laid_green

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
        ({"what": "x" * 5000}, "at most 2000 characters (it has 5000)"),
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


def logged_snag(cast, *, greens=None, **details):
    return record_work(
        club=cast.club,
        by=cast.staff,
        done_by=cast.staff,
        kind="defect",
        on=date(2026, 4, 14),
        greens=greens or [cast.green],
        details={"what": "Hollow over the main drain", **details},
    )


def told(row: Defect) -> tuple:
    return row.what, row.place, row.found_on, row.due_on, row.put_right_on


def test_a_defect_logged_by_greenstaff_stands_in_the_record_too(cast, as_):
    entry = logged_snag(cast, place="front left", due_on="2026-05-01")
    row = Defect.objects.get()
    assert (row.establishment, row.entry, row.by) == (cast.establishment, entry, cast.staff)
    assert told(row) == (
        "Hollow over the main drain",
        "front left",
        date(2026, 4, 14),
        date(2026, 5, 1),
        None,
    )
    page = as_("staff").get(reverse("entry", args=[cast.club.slug, entry.pk])).content.decode()
    assert "Noted for the contractor in the record of Seventh" in page
    record = as_("staff").get(reverse("rebuild", args=[cast.club.slug, cast.establishment.pk]))
    assert "Hollow over the main drain" in record.content.decode()


def test_without_a_day_it_is_due_when_the_contractors_maintenance_ends(cast):
    cast.establishment.maintenance_ends_on = date(2026, 10, 20)
    cast.establishment.save()
    logged_snag(cast)
    assert Defect.objects.get().due_on == date(2026, 10, 20)


def test_without_any_day_the_record_says_that_none_is_agreed(cast, as_):
    logged_snag(cast)
    page = as_("head").get(reverse("record", args=[cast.club.slug, cast.green.pk])).content.decode()
    assert "No day agreed yet" in page


def test_one_entry_for_two_greens_is_a_defect_of_each(cast):
    other = laid_green(cast.club, "Eighth")
    logged_snag(cast, greens=[cast.green, other.green])
    assert set(Defect.objects.values_list("establishment", flat=True)) == {cast.establishment.pk, other.pk}


def test_a_correction_corrects_the_record_and_leaves_what_the_head_greenkeeper_set(cast):
    entry = logged_snag(cast)
    row = Defect.objects.get()
    row.due_on = date(2026, 4, 30)
    row.save()
    correct_work(entry=entry, by=cast.staff, details={"what": "Hollow over the lateral"})
    row.refresh_from_db()
    assert told(row) == ("Hollow over the lateral", "", date(2026, 4, 14), date(2026, 4, 30), None)


def test_a_green_struck_from_the_entry_loses_the_defect(cast):
    other = laid_green(cast.club, "Eighth")
    entry = logged_snag(cast, greens=[cast.green, other.green])
    correct_work(entry=entry, by=cast.staff, greens=[other.green])
    assert Defect.objects.get().establishment == other


def test_a_defect_taken_back_leaves_the_record_with_a_line(cast):
    take_back(entry=logged_snag(cast), by=cast.staff)
    assert not Defect.objects.exists()
    deeds = list(TrailLine.objects.filter(noun="defect").values_list("deed", flat=True))
    assert deeds == [
        "Took back a defect: Hollow over the main drain",
        "Noted a defect: Hollow over the main drain",
    ]
