"""Telling members: once each, as they wish; seen, acknowledged, put aside, or no longer so."""

from datetime import UTC, datetime, timedelta

import pytest
from django.core import mail

from greens.actions import mail as mails
from greens.actions import notice as actions
from greens.choices import NoticeKind
from greens.models import Notice, TrailLine
from greens.queries import wish as wishes
from tests.entries import at

pytestmark = pytest.mark.django_db
MORNING = datetime(2026, 4, 16, 8, 0, tzinfo=UTC)
FROST = actions.Telling(
    kind=NoticeKind.PLAY, key="frost", subject="Frost tonight", text="Keep off.",
    place="/clubs/marram-links/today/",
)  # fmt: skip


def told(cast, **more) -> list[Notice]:
    telling = actions.Telling(**(vars(FROST) | more))
    return actions.tell(club=cast.club, to=wishes.able(cast.club), telling=telling)


def seen_on(client, cast, name: str) -> str:
    return client.get(at(cast, name)).content.decode()


def test_everybody_who_can_sign_in_is_told_once(cast):
    everybody = {one.name for one in (cast.head, cast.staff, cast.committee, cast.adviser)}
    assert {row.to.name for row in told(cast)} == everybody
    assert told(cast) == []
    assert Notice.objects.count() == 4


def test_a_notice_stands_on_today_until_it_was_seen(cast, as_):
    told(cast)
    staff, row = as_("staff"), Notice.objects.get(to=cast.staff)
    assert "Frost tonight" in seen_on(staff, cast, "today")
    staff.post(at(cast, "notice_seen"), {"notice": row.pk, "back": at(cast, "today")})
    assert "Frost tonight" not in seen_on(staff, cast, "today")
    assert "Seen" in seen_on(staff, cast, "notices")


def test_the_weightiest_stands_first(cast, as_):
    told(cast)
    told(cast, kind=NoticeKind.NOTE, key="note", subject="The week")
    told(cast, kind=NoticeKind.OPENING, key="early", subject="Too early")
    page = seen_on(as_("head"), cast, "notices")
    assert page.index("Too early") < page.index("Frost tonight") < page.index("The week")


def test_nobody_sees_away_or_puts_aside_the_notice_of_another(cast, as_):
    told(cast)
    row, head = Notice.objects.get(to=cast.staff), as_("head")
    for number in (row.pk, "9" * 5000, "²", "", "-1"):
        head.post(at(cast, "notice_seen"), {"notice": number})
        head.post(at(cast, "notice_put_aside"), {"notice": number, "days": "7"})
    row.refresh_from_db()
    assert (row.seen_at, row.asleep_until) == (None, None)


def test_a_warning_is_acknowledged_and_that_is_written_down(cast, as_):
    told(cast, asks_word=True)
    row = Notice.objects.get(to=cast.committee)
    committee = as_("committee")
    assert "Acknowledge" in seen_on(committee, cast, "notices")
    committee.post(at(cast, "all_notices_seen"))
    row.refresh_from_db()
    assert row.seen_at is None
    committee.post(at(cast, "notice_seen"), {"notice": row.pk})
    committee.post(at(cast, "notice_seen"), {"notice": row.pk})
    assert TrailLine.objects.filter(deed="Acknowledged: Frost tonight", by=cast.committee).count() == 1


def test_what_was_put_aside_comes_again_and_is_mailed_again(cast, as_, time_machine):
    time_machine.move_to(MORNING, tick=False)
    told(cast)
    Notice.objects.exclude(to=cast.staff).delete()
    assert mails.send_due() == 1
    as_("staff").post(at(cast, "notice_put_aside"), {"notice": Notice.objects.get().pk, "days": "3"})
    assert "Frost tonight" not in seen_on(as_("staff"), cast, "today")
    first, again = Notice.objects.order_by("pk")
    assert (first.mail.state, again.mail) == ("sent", None)
    assert (again.asleep_until, mails.send_due()) == (datetime(2026, 4, 19, 5, 30, tzinfo=UTC), 0)
    time_machine.move_to(MORNING + timedelta(days=3), tick=False)
    assert "Frost tonight" in seen_on(as_("staff"), cast, "today")
    assert (mails.send_due(), mails.send_due(), len(mail.outbox)) == (1, 0, 2)


def test_any_other_number_of_days_means_until_tomorrow(cast, as_):
    for number, days in enumerate(("1000000000000", "-3", "", "x")):
        told(cast, key=f"frost {number}")
        row = Notice.objects.get(to=cast.staff, lapsed_at=None, asleep_until=None)
        as_("staff").post(at(cast, "notice_put_aside"), {"notice": row.pk, "days": days})
        again = Notice.objects.get(to=cast.staff, key__startswith=row.key, lapsed_at=None)
        assert again.asleep_until.astimezone(cast.club.zone).date() == cast.today + timedelta(days=1)


def test_what_no_longer_holds_is_neither_shown_first_nor_mailed(cast, as_):
    told(cast)
    assert actions.supersede(club=cast.club, keys="fro") == 4
    assert mails.send_due() == 0
    assert "Frost tonight" not in seen_on(as_("staff"), cast, "today")
    assert "No longer so since" in seen_on(as_("staff"), cast, "notices")


def test_the_days_page_shows_what_presses_and_counts_the_rest(cast, as_):
    told(cast)
    told(cast, kind=NoticeKind.STEPS, key="steps", subject="Seventh: 2 steps due")
    page = seen_on(as_("staff"), cast, "today")
    assert "Frost tonight" in page
    assert "1 more notice not seen yet" in page
    assert "Seventh: 2 steps due" not in page
