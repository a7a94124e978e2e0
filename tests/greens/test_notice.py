"""Telling members: once each, by a row first, mailed with growing pauses, given up where all can see it."""

from datetime import timedelta

import pytest
from django.core import mail
from django.utils import timezone

from greens.actions import notice as actions
from greens.choices import Sending
from greens.models import Notice
from greens.queries import people
from tests.entries import at

pytestmark = pytest.mark.django_db
REFUSING = "tests.greens.refusing.Mailbox"


def tell(cast, key="frost") -> list[Notice]:
    return actions.tell(
        club=cast.club, to=people.current(cast.club), key=key, subject="Frost tonight", text="Keep off.",
        place="/clubs/marram-links/today/",
    )  # fmt: skip


def test_everybody_who_can_sign_in_is_told_once(cast):
    assert {row.to.name for row in tell(cast)} == {
        one.name for one in (cast.head, cast.staff, cast.committee, cast.adviser)
    }
    assert tell(cast) == []
    assert Notice.objects.count() == 4


def test_a_notice_leaves_once_as_an_email_with_its_page(cast, settings):
    settings.SITE_URL = "https://greens.example.org"
    tell(cast)
    assert [actions.send_due(), actions.send_due(), len(mail.outbox)] == [4, 0, 4]
    first = next(one for one in mail.outbox if one.to == [cast.staff.person.email])
    assert first.subject == "Marram Links: Frost tonight"
    assert "Keep off." in first.body
    assert "https://greens.example.org/clubs/marram-links/today/" in first.body
    assert first.extra_headers["Message-ID"].endswith("@greens.example.org>")


def test_what_somebody_else_has_claimed_is_left_to_them(cast):
    tell(cast)
    row = Notice.objects.get(to=cast.head)
    Notice.objects.filter(pk=row.pk).update(state=Sending.SENDING, claimed_at=timezone.now())
    assert actions.send(row) is False
    assert mail.outbox == []


def test_a_claim_whose_sender_died_is_taken_up_after_ten_minutes(cast):
    tell(cast)
    dead = timezone.now() - actions.LOST_AFTER - timedelta(seconds=1)
    Notice.objects.update(state=Sending.SENDING, claimed_at=dead, tries=1)
    assert (actions.send_due(), Notice.objects.filter(state=Sending.SENT).count()) == (4, 4)


def test_a_mail_that_is_refused_waits_longer_each_time_and_is_given_up_visibly(cast, settings, as_):
    settings.EMAIL_BACKEND = REFUSING
    Notice.objects.exclude(to=cast.staff).delete()
    actions.tell(club=cast.club, to=[cast.staff], key="frost", subject="Frost tonight", text="Keep off.")
    row, waits = Notice.objects.get(), []
    for _ in range(len(actions.PAUSES) + 1):
        Notice.objects.update(next_try_at=timezone.now())
        assert actions.send_due() == 0
        row.refresh_from_db()
        waits.append(round((row.next_try_at - timezone.now()).total_seconds() / 60))
    assert waits == [1, 5, 15, 60, 240, 720, 0]
    assert (row.state, actions.send_due()) == (Sending.GIVEN_UP, 0)
    page = as_("head").get(at(cast, "notices_sent")).content.decode()
    assert "Given up, after 7 tries: No mail today." in page


def test_a_notice_stands_on_today_until_it_was_seen(cast, as_):
    tell(cast)
    staff, row = as_("staff"), Notice.objects.get(to=cast.staff)
    assert "Frost tonight" in staff.get(at(cast, "today")).content.decode()
    staff.post(at(cast, "notice_seen"), {"notice": row.pk, "from": "today"})
    assert "Frost tonight" not in staff.get(at(cast, "today")).content.decode()
    assert "Frost tonight" in staff.get(at(cast, "notices")).content.decode()


def test_nobody_sees_away_the_notice_of_another(cast, as_):
    tell(cast)
    row = Notice.objects.get(to=cast.staff)
    as_("head").post(at(cast, "notice_seen"), {"notice": row.pk})
    as_("head").post(at(cast, "notice_seen"), {"notice": "9" * 5000})
    row.refresh_from_db()
    assert row.seen_at is None
