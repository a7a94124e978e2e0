"""Logging work: what is kept, what is refused, what it brought, how it is corrected and taken back."""

from datetime import date, timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.utils import timezone

from greens.actions import store
from greens.actions.diary import Conflict, correct_work, may_take_back, record_work, take_back
from greens.actions.people import NotPossible
from greens.models import Entry, TrailLine
from growin.agronomy.fields import DetailError
from tests.entries import brought, label, logged

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        ({"details": {"height_mm": 80}}, "height_mm"),
        ({"details": {"height_mm": -3}}, "height_mm"),
        ({"details": {"height_mm": "eight"}}, "height_mm"),
        ({"details": {}}, "height_mm"),
        ({"details": {"height_mm": 8, "clippings_ml_m2": 5_000}}, "clippings_ml_m2"),
        ({"details": {"height_mm": 8, "wheels": 4}}, "wheels"),
        ({"on": date(2026, 4, 17)}, "on"),
        ({"on": date(2025, 9, 1)}, "on"),
        ({"on": date(2025, 10, 1)}, "on"),
        ({"kind": "dance"}, "kind"),
        ({"greens": []}, "greens"),
        ({"note": "x" * 5_000}, "note"),
        ({"minutes": -5}, "minutes"),
    ],
)
def test_the_impossible_is_refused_and_nothing_is_kept(cast, wrong, field):
    with pytest.raises(DetailError) as refused:
        logged(cast, **{"kind": "cut", **wrong})
    assert list(refused.value.errors) == [field]
    assert (Entry.objects.count(), TrailLine.objects.filter(noun="entry").count()) == (0, 0)


def test_works_may_be_dated_from_the_start_of_construction(cast):
    entry = logged(cast, "build_work", on=date(2025, 9, 8), details={"stage": "excavation"})
    assert entry.on == date(2025, 9, 8)


def test_what_belongs_to_another_club_is_refused(cast):
    theirs = store.add_product(
        club=cast.outsider.club,
        by=cast.outsider,
        kind="granular",
        name="Theirs",
        lines={"N_total": Decimal(10)},
        from_day=cast.today,
    ).newest_label
    for wrong in (
        {"greens": [cast.other_green]},
        {"done_by": cast.outsider},
        {"kind": "feed", "details": {}, "products": [(theirs, 1_000)]},
    ):
        with pytest.raises(DetailError):
            record_work(
                **{
                    "club": cast.club,
                    "by": cast.staff,
                    "done_by": cast.staff,
                    "kind": "cut",
                    "on": cast.today,
                    "greens": [cast.green],
                    "details": {"height_mm": 8},
                    **wrong,
                }
            )
    assert Entry.objects.count() == 0


@pytest.mark.parametrize("amount", [0, 3_000_000])
def test_an_amount_nobody_can_have_spread_is_refused(cast, amount):
    bag = label(cast, lines={"N_total": 12})
    with pytest.raises(DetailError) as refused:
        logged(cast, "feed", products=[(bag, amount)])
    assert list(refused.value.errors) == ["products"]


def test_a_plant_protection_product_stands_in_a_spray_record_only(cast):
    can = label(cast, "Guard", kind="spray", unit="ml")
    with pytest.raises(DetailError, match="kept as plant protection product"):
        logged(cast, "feed", products=[(can, 500)])


def test_an_entry_arrives_once(cast):
    number = uuid4()
    first = logged(cast, client_id=number)
    assert logged(cast, client_id=number) == first
    assert Entry.objects.count() == 1
    assert TrailLine.objects.filter(noun="entry").count() == 1


def test_the_same_number_with_other_words_is_a_conflict(cast):
    number = uuid4()
    first = logged(cast, client_id=number)
    with pytest.raises(Conflict) as conflict:
        logged(cast, client_id=number, details={"height_mm": 7})
    assert conflict.value.entry == first
    assert Entry.objects.get().details == {"height_mm": 8}


def test_an_entry_that_was_corrected_still_knows_how_it_arrived(cast):
    number = uuid4()
    first = logged(cast, client_id=number)
    correct_work(entry=first, by=cast.staff, details={"height_mm": 7})
    assert logged(cast, client_id=number).details == {"height_mm": 7}


def test_the_same_number_may_stand_in_two_clubs(cast):
    number = uuid4()
    logged(cast, client_id=number)
    theirs = record_work(
        club=cast.outsider.club,
        by=cast.outsider,
        done_by=cast.outsider,
        kind="cut",
        on=cast.today,
        greens=[cast.other_green],
        details={"height_mm": 5},
        client_id=number,
    )
    assert theirs.details == {"height_mm": 5}


def test_a_correction_keeps_what_stood_before(cast):
    bag = label(cast, lines={"N_total": 12})
    entry = logged(cast, "feed", products=[(bag, 2_250)], note="dry leaf")
    corrected = correct_work(entry=entry, by=cast.head, products=[(bag, 4_500)])
    assert (corrected.revision, brought(corrected)) == (2, {"N": 1_200})
    before = corrected.revisions.get()
    assert (before.number, before.replaced_by) == (1, cast.head)
    assert dict(before.as_it_was["reads"])["Spring feed"] == "2.25 kg, 5 g/m² (50 kg/ha)"
    line = TrailLine.objects.filter(noun="entry").first()
    assert line.deed == "Corrected: Fed, Thu 16 April"
    assert line.changes == {
        "Spring feed": ["2.25 kg, 5 g/m² (50 kg/ha)", "4.5 kg, 10 g/m² (100 kg/ha)"],
        "Nutrients": ["N 6 kg/ha (0.27 kg)", "N 12 kg/ha (0.54 kg)"],
    }


def test_a_correction_keeps_the_area_of_then(cast):
    bag = label(cast, lines={"N_total": 12})
    entry = logged(cast, "feed", products=[(bag, 2_250)])
    cast.green.area_dm2 = 90_000
    cast.green.save()
    assert correct_work(entry=entry, by=cast.staff, note="watered in").area_dm2 == 45_000


def test_a_correction_on_a_stale_page_is_a_conflict(cast):
    entry = logged(cast)
    correct_work(entry=entry, by=cast.head, seen_revision=1, details={"height_mm": 7})
    with pytest.raises(Conflict):
        correct_work(entry=entry, by=cast.staff, seen_revision=1, details={"height_mm": 6})
    assert Entry.objects.get().details == {"height_mm": 7}


def test_an_impossible_correction_changes_nothing(cast):
    entry = logged(cast)
    with pytest.raises(DetailError):
        correct_work(entry=entry, by=cast.staff, details={"height_mm": 80})
    kept = Entry.objects.get()
    assert (kept.details, kept.revision, kept.revisions.count()) == ({"height_mm": 8}, 1, 0)


def test_the_logger_takes_back_within_a_minute_and_the_head_greenkeeper_later(cast):
    entry = logged(cast)
    assert may_take_back(entry, cast.staff)
    assert not may_take_back(entry, cast.by_name)
    Entry.objects.update(logged_at=timezone.now() - timedelta(minutes=2))
    entry.refresh_from_db()
    with pytest.raises(NotPossible, match="The minute is over"):
        take_back(entry=entry, by=cast.staff)
    assert take_back(entry=entry, by=cast.head) is True
    entry.refresh_from_db()
    assert take_back(entry=entry, by=cast.head) is False
    assert TrailLine.objects.filter(deed="Took back: Cut, Thu 16 April").count() == 1


def test_a_cut_under_the_floor_of_the_grass_is_kept_and_marked(cast):
    low, ordinary = (logged(cast, details={"height_mm": height}) for height in (2.5, 8))
    assert low.over_limit == ["2.5 mm is under the floor of 4 mm for fescue/bent."]
    assert ordinary.over_limit == []
