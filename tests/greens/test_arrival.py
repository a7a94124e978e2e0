"""What a phone had kept arrives once: the same answer ever after, no trace of what is refused."""

from datetime import UTC, datetime, timedelta

import pytest
from django.test import Client
from django.utils import timezone

from greens.actions.diary import take_back
from greens.models import Arrival, Entry, TrailLine
from greens.queries import diary
from tests.entries import at, cut, label
from tests.pockets import head, sent

pytestmark = [pytest.mark.django_db, pytest.mark.every_database]
ONE = "1b4e28ba-2fa1-4d2b-a3f5-3cbb0d5e8f01"


@pytest.fixture
def cutting(cast) -> str:
    return at(cast, "log_work", "cut")


def test_a_form_from_a_phone_is_kept_and_told_in_few_words(cast, as_, cutting):
    answer = sent(as_("staff"), cutting, cut(cast), cast.staff, ONE)
    entry = Entry.objects.get()
    assert (answer.status_code, answer.json()) == (
        200,
        {"state": "kept", "page": at(cast, "entry", entry.pk) + "?kept", "is_first": True, "ahead_s": None},
    )
    assert (entry.on, entry.done_by, str(entry.client_id)) == (cast.today, cast.staff, ONE)
    assert Arrival.objects.get().kept_at == datetime(2026, 4, 16, 10, tzinfo=UTC)


def test_sent_again_it_gets_the_same_answer_and_nothing_is_doubled(cast, as_, cutting):
    staff = as_("staff")
    first, again = (sent(staff, cutting, cut(cast), cast.staff, ONE).json() for _ in range(2))
    assert again == first | {"is_first": False}
    assert (Entry.objects.count(), TrailLine.objects.filter(noun="entry").count()) == (1, 1)


def test_sent_again_after_it_was_taken_back_it_stays_taken_back(cast, as_, cutting):
    sent(as_("staff"), cutting, cut(cast), cast.staff, ONE)
    take_back(entry=diary.one(cast.club, Entry.objects.get().pk), by=cast.head)
    assert sent(as_("staff"), cutting, cut(cast), cast.staff, ONE).status_code == 200
    assert Entry.objects.get().taken_back_at


def test_other_content_under_the_same_number_is_a_conflict_that_says_what_stands(cast, as_, cutting):
    first = sent(as_("staff"), cutting, cut(cast), cast.staff, ONE).json()
    other = sent(as_("staff"), cutting, cut(cast, height_mm="7"), cast.staff, ONE)
    assert (other.status_code, other.json()) == (
        409,
        {
            "state": "conflict",
            "wrongs": [
                ["", "Something else was sent from this phone under the same number before. "
                    "What came first stands."]
            ],
            "page": first["page"],
        },
    )  # fmt: skip
    assert Entry.objects.get().details == {"height_mm": 8}


def test_what_is_refused_says_why_and_leaves_no_trace(cast, as_, cutting):
    answer = sent(as_("staff"), cutting, cut(cast, on="2026-04-17", height_mm="300"), cast.staff, ONE)
    assert answer.status_code == 422
    said = dict(answer.json()["wrongs"])
    assert said["Day"].startswith("Fri 17 April 2026 lies in the future")
    assert not Entry.objects.exists() and not Arrival.objects.exists()


def test_once_mended_it_is_kept_under_its_old_number(cast, as_, cutting):
    sent(as_("staff"), cutting, cut(cast, height_mm="300"), cast.staff, ONE)
    assert sent(as_("staff"), cutting, cut(cast), cast.staff, ONE).status_code == 200
    assert str(Entry.objects.get().client_id) == ONE


def test_products_are_refused_with_the_words_of_their_field(cast, as_):
    feed = label(cast, lines={"N_total": 12})
    form = {
        "greens": [cast.green.pk], "on": "2026-04-16", "done_by": cast.staff.pk,
        "products-TOTAL_FORMS": "1", "products-INITIAL_FORMS": "0", "products-0-label": feed.pk,
        "products-0-amount": "a lot", "products-0-way": "all",
    }  # fmt: skip
    answer = sent(as_("staff"), at(cast, "log_work", "feed"), form, cast.staff, ONE)
    assert answer.json()["wrongs"] == [
        ["Amount", "'a lot' is not a number; write it in figures, such as 12.5."]
    ]


def test_nobody_sends_what_somebody_else_wrote(cast, as_, cutting):
    answer = sent(as_("head"), cutting, cut(cast), cast.staff, ONE)
    assert (answer.status_code, answer.json()["state"]) == (403, "another's")
    assert not Entry.objects.exists()


def test_a_number_that_a_colleague_used_is_no_way_to_what_they_wrote(cast, as_, cutting):
    sent(as_("staff"), cutting, cut(cast), cast.staff, ONE)
    assert sent(as_("head"), cutting, cut(cast), cast.head, ONE).status_code == 409


def test_the_day_is_the_one_on_the_form_whatever_the_phones_clock_says(cast, as_, cutting):
    an_hour_ahead = timezone.now() + timedelta(hours=1)
    answer = sent(as_("staff"), cutting, cut(cast), cast.staff, ONE, clock=an_hour_ahead.isoformat())
    assert Entry.objects.get().on == cast.today
    assert answer.json()["ahead_s"] == pytest.approx(3600, abs=30)
    assert Arrival.objects.get().ahead_s == pytest.approx(3600, abs=30)
    entry = as_("staff").get(answer.json()["page"]).content.decode()
    assert "Its clock was 60 minutes ahead." in entry


def test_what_lay_on_a_phone_for_a_while_says_so(cast, as_, cutting):
    answer = sent(as_("staff"), cutting, cut(cast), cast.staff, kept="2026-11-28T08:00:00Z")
    assert "Written on a phone on" in as_("staff").get(answer.json()["page"]).content.decode()


@pytest.mark.parametrize(
    "lines",
    [
        {"X-Pocket-Id": "seven"},
        {"X-Pocket-Id": ""},
        {"X-Pocket-Member": "x"},
        {"X-Pocket-Member": ""},
        {"X-Pocket-Kept": "yesterday"},
        {"X-Pocket-Clock": "2026-04-16T10:00:00"},
    ],
    ids=lambda lines: "{}: {!r}".format(*next(iter(lines.items()))),
)
def test_what_cannot_be_read_at_its_head_is_no_500(cast, as_, cutting, lines):
    answer = as_("staff").post(cutting, cut(cast), headers=head(cast.staff, ONE) | lines)
    assert (answer.status_code, answer.json()["state"]) == (400, "unreadable")
    assert not Entry.objects.exists()


def test_whoever_is_signed_out_is_led_to_the_door_and_nothing_is_kept(cast, cutting):
    answer = sent(Client(), cutting, cut(cast), cast.staff, ONE)
    assert (answer.status_code, Entry.objects.count()) == (302, 0)


def test_good_news_of_what_is_sent_later_does_not_pile_up_on_the_next_page(cast, as_):
    staff, tap = as_("staff"), at(cast, "walked", cast.green.pk)
    sent(staff, tap, {"on": "2026-04-15"}, cast.staff, when="later")
    assert "walked, all well" not in staff.get(at(cast, "diary")).content.decode()
    sent(staff, tap, {"on": "2026-04-16"}, cast.staff, when="now")
    assert "Seventh: walked, all well." in staff.get(at(cast, "diary")).content.decode()
    assert sorted(Entry.objects.values_list("on", flat=True)) == [
        cast.today - timedelta(days=1), cast.today
    ]  # fmt: skip


def test_a_tap_on_a_day_to_come_is_refused_in_words(cast, as_):
    answer = sent(as_("staff"), at(cast, "walked", cast.green.pk), {"on": "2026-04-17"}, cast.staff)
    assert answer.status_code == 422
    assert answer.json()["wrongs"][0][1].startswith("Fri 17 April 2026 lies in the future")
