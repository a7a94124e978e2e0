"""The pages of the diary: looking up, reading, correcting, taking back."""

from datetime import date, timedelta

import pytest
from django.utils import timezone

from greens.actions.diary import record_work
from greens.models import Entry, TrailLine
from tests.cast import laid_green
from tests.entries import at, cut, fed, label, logged

pytestmark = pytest.mark.django_db


@pytest.fixture
def bag(cast):
    return label(cast, lines={"N_total": 12})


def test_another_clubs_entry_does_not_exist_here(cast, as_):
    theirs = record_work(
        club=cast.outsider.club,
        by=cast.outsider,
        done_by=cast.outsider,
        kind="cut",
        on=cast.today,
        greens=[cast.other_green],
        details={"height_mm": 5},
    )
    head = as_("head")
    assert head.get(at(cast, "entry", theirs.pk)).status_code == 404
    assert head.get(at(cast, "correct_entry", theirs.pk)).status_code == 404
    assert head.post(at(cast, "take_back_entry", theirs.pk)).status_code == 404
    copied = head.get(at(cast, "log_work", "cut") + f"?copy={theirs.pk}").content.decode()
    assert "Filled in as on" not in copied


def test_who_may_log_and_who_may_only_read(cast, as_):
    entry = logged(cast)
    assert as_("committee").get(at(cast, "diary")).status_code == 200
    assert as_("adviser").get(at(cast, "entry", entry.pk)).status_code == 200
    assert as_("committee").get(at(cast, "log")).status_code == 403
    assert as_("adviser").post(at(cast, "log_work", "cut"), cut(cast)).status_code == 403


def test_greenstaff_correct_their_own_entries_only(cast, as_):
    own, other = logged(cast), logged(cast, by=cast.head)
    staff = as_("staff")
    assert staff.get(at(cast, "correct_entry", own.pk)).status_code == 200
    assert staff.get(at(cast, "correct_entry", other.pk)).status_code == 403
    assert staff.post(at(cast, "take_back_entry", other.pk)).status_code == 403
    assert as_("head").get(at(cast, "correct_entry", own.pk)).status_code == 200


def test_a_correction_is_kept_and_the_old_reading_stays(cast, as_):
    entry = logged(cast)
    sent = cut(cast, height_mm="7", seen_revision=1)
    page = as_("staff").post(at(cast, "correct_entry", entry.pk), sent, follow=True).content.decode()
    assert "As it read before Callum Reed corrected it" in page
    assert "8 mm" in page
    assert Entry.objects.get().details == {"height_mm": 7}


def test_a_correction_of_the_note_leaves_the_amount_to_the_gram(cast, as_, bag):
    entry = logged(cast, "feed", products=[(bag, 1_234_567)])
    page = as_("staff").get(at(cast, "correct_entry", entry.pk)).content.decode()
    assert 'value="1234.567"' in page
    sent = fed(cast, (bag, "1234.567", "all"), note="dry leaf", seen_revision=1)
    as_("staff").post(at(cast, "correct_entry", entry.pk), sent)
    assert Entry.objects.get().note == "dry leaf"
    assert Entry.objects.get().products.get().amount == 1_234_567


def test_taking_back_is_one_tap_within_a_minute(cast, as_):
    entry = logged(cast)
    as_("staff").post(at(cast, "take_back_entry", entry.pk))
    entry.refresh_from_db()
    assert entry.taken_back_by == cast.staff
    assert list(as_("head").get(at(cast, "diary")).context["page"].object_list) == []


def test_after_the_minute_only_the_head_greenkeeper_takes_back(cast, as_):
    entry = logged(cast)
    Entry.objects.update(logged_at=timezone.now() - timedelta(minutes=2))
    page = as_("staff").post(at(cast, "take_back_entry", entry.pk), follow=True).content.decode()
    assert "The minute is over" in page
    assert Entry.objects.get().taken_back_at is None
    as_("head").post(at(cast, "take_back_entry", entry.pk))
    assert Entry.objects.get().taken_back_by == cast.head


def test_the_diary_is_searched_and_filtered(cast, as_, bag):
    other = laid_green(cast.club, "Practice green")
    logged(cast, "feed", products=[(bag, 2_250)], on=date(2026, 3, 20))
    logged(cast, by=cast.head, note="dew was heavy")
    logged(cast, "roll", greens=[other.green], on=date(2026, 4, 10))
    asked = {
        "": 3,
        "words=spring": 1,
        "words=dew+heavy": 1,
        "words=practice": 1,
        "words=badger": 0,
        f"green={cast.green.pk}": 2,
        "kind=roll": 1,
        "month=2026-03": 1,
        "first=2026-04-01&last=2026-04-12": 1,
        f"done_by={cast.head.pk}": 1,
        "month=March&words=spring": 3,
    }
    found = {
        query: len(as_("committee").get(at(cast, "diary") + f"?{query}").context["page"].object_list)
        for query in asked
    }
    assert found == asked


def test_the_diary_takes_as_many_queries_for_many_entries_as_for_one(
    cast, as_, bag, django_assert_num_queries
):
    head, address = as_("head"), at(cast, "diary")
    logged(cast, "feed", products=[(bag, 2_250)])
    with django_assert_num_queries(QUERIES_OF_THE_DIARY):
        head.get(address)
    for day in range(1, 13):
        logged(cast, "feed", products=[(bag, 2_250)], on=date(2026, 4, day))
    with django_assert_num_queries(QUERIES_OF_THE_DIARY):
        head.get(address)


QUERIES_OF_THE_DIARY = 11


def test_every_entry_leaves_a_line_in_the_record_of_changes(cast, as_):
    as_("staff").post(at(cast, "log_work", "cut"), cut(cast))
    line = TrailLine.objects.get(noun="entry")
    assert (line.deed, line.by, line.green) == ("Logged: Cut, Thu 16 April", cast.staff, cast.green)
