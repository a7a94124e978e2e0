"""E-mails: gathered as each wishes, sent once, tried again with growing pauses, given up for all to see."""

from datetime import UTC, datetime, time, timedelta

import pytest
from django.core import mail
from django.utils import timezone

from greens.actions import mail as actions
from greens.actions.notice import Telling, supersede, tell
from greens.actions.wish import change_wishes
from greens.choices import NoticeKind, Pace, Sending
from greens.models import Mail, Notice, Wish
from tests.entries import at

pytestmark = pytest.mark.django_db
REFUSING = "tests.greens.refusing.Mailbox"
MORNING = datetime(2026, 4, 16, 8, 0, tzinfo=UTC)


@pytest.fixture(autouse=True)
def in_the_morning(time_machine):
    time_machine.move_to(MORNING, tick=False)


def told(cast, *to, kind=NoticeKind.WEATHER, key="frost", **more) -> list[Notice]:
    said = {"subject": "Frost tonight", "text": "Keep off.", "place": "/clubs/marram-links/today/"} | more
    return tell(club=cast.club, to=to or [cast.staff], telling=Telling(kind=kind, key=key, **said))


def test_a_notice_leaves_once_with_its_page_in_text_and_html(cast, settings):
    settings.SITE_URL = "https://greens.example.org"
    told(cast, cast.staff, cast.head)
    assert [actions.send_due(), actions.send_due(), len(mail.outbox)] == [2, 0, 2]
    first = next(one for one in mail.outbox if one.to == [cast.staff.person.email])
    assert first.subject == "Marram Links: Frost tonight"
    html, kind = first.alternatives[0]
    assert kind == "text/html"
    for said in (first.body, html):
        assert "Keep off." in said
        assert "https://greens.example.org/clubs/marram-links/today/" in said
        assert "https://greens.example.org/no-more-mail/" in said
    assert first.extra_headers["Message-ID"].endswith("@greens.example.org>")
    assert first.extra_headers["List-Unsubscribe-Post"] == "List-Unsubscribe=One-Click"


def test_what_is_due_together_leaves_together_the_weightiest_first(cast):
    told(cast)
    told(cast, kind=NoticeKind.PLAY, key="play", subject="Seventh: back to not met")
    told(cast, kind=NoticeKind.NOTE, key="note", subject="The week")
    assert actions.send_due() == 1
    (letter,) = mail.outbox
    assert letter.subject == "Marram Links: Seventh: back to not met, and 2 more"
    assert letter.body.index("back to not met") < letter.body.index("Frost") < letter.body.index("The week")


def test_once_a_day_comes_at_its_time_by_the_clock_of_the_club(cast, time_machine):
    told(cast, kind=NoticeKind.STEPS, key="a", subject="Seventh: 2 steps due")
    told(cast, kind=NoticeKind.READINGS, key="b", subject="Seventh: roots to be read")
    assert actions.send_due() == 0
    time_machine.move_to(datetime(2026, 4, 17, 5, 29, tzinfo=UTC), tick=False)
    assert actions.send_due() == 0
    time_machine.move_to(datetime(2026, 4, 17, 5, 30, tzinfo=UTC), tick=False)
    assert actions.send_due() == 1
    assert mail.outbox[0].subject == "Marram Links, Fri 17 April: Seventh: 2 steps due, and 1 more"


def test_once_a_week_names_the_week(cast, time_machine):
    told(cast, cast.committee, kind=NoticeKind.NOTE, key="note", subject="The week on the seventh")
    time_machine.move_to(datetime(2026, 4, 20, 5, 30, tzinfo=UTC), tick=False)
    assert actions.send_due() == 1
    assert mail.outbox[0].subject == (
        "Marram Links, Mon 13 April to Sun 19 April 2026: The week on the seventh"
    )


def test_nothing_leaves_in_quiet_hours(cast, time_machine):
    time_machine.move_to(datetime(2026, 4, 16, 21, 0, tzinfo=UTC), tick=False)
    told(cast)
    assert actions.send_due() == 0
    time_machine.move_to(datetime(2026, 4, 17, 5, 0, tzinfo=UTC), tick=False)
    assert actions.send_due() == 1


def test_two_who_gather_the_same_make_one_mail(cast, monkeypatch):
    """The second read what waits before the first had put it into its mail."""
    told(cast)
    as_both_read_it = list(Notice.objects.all())
    assert actions._gathered(as_both_read_it) is True
    assert actions._gathered(as_both_read_it) is False
    assert (Mail.objects.count(), actions.send_due()) == (1, 1)


def test_a_notice_that_was_taken_into_another_mail_makes_none_of_its_own(cast):
    told(cast)
    told(cast, key="later", subject="Later")
    early, late = Notice.objects.order_by("pk")
    assert actions._gathered([early, late]) is True
    assert actions._gathered([late]) is False
    assert Mail.objects.count() == 1


def test_what_somebody_else_has_claimed_is_left_to_them(cast):
    told(cast)
    actions.gather_due()
    row = Mail.objects.get()
    Mail.objects.update(state=Sending.SENDING, claimed_at=timezone.now())
    assert actions.send(row, mail.get_connection()) is False
    assert mail.outbox == []


def test_a_claim_whose_sender_died_is_taken_up_after_ten_minutes_with_the_same_message_id(cast):
    told(cast)
    actions.send_due()
    dead = timezone.now() - actions.LOST_AFTER - timedelta(seconds=1)
    Mail.objects.update(state=Sending.SENDING, claimed_at=dead)
    assert actions.send_due() == 1
    assert len({one.extra_headers["Message-ID"] for one in mail.outbox}) == 1


def test_a_mail_that_is_refused_waits_longer_each_time_and_is_given_up_visibly(cast, settings, as_):
    settings.EMAIL_BACKEND = REFUSING
    told(cast)
    waits = []
    for _ in range(len(actions.PAUSES) + 1):
        Mail.objects.update(next_try_at=timezone.now())
        assert actions.send_due() == 0
        row = Mail.objects.get()
        waits.append(round((row.next_try_at - timezone.now()).total_seconds() / 60))
    assert waits == [1, 5, 15, 60, 240, 720, 0]
    assert (row.state, actions.send_due()) == (Sending.GIVEN_UP, 0)
    page = as_("head").get(at(cast, "notices_sent")).content.decode()
    assert "1 mail has not left." in page
    assert "Given up, after 7 tries: No mail today." in page


def test_a_mail_whose_notices_all_lapsed_while_it_waited_is_not_sent(cast, settings):
    settings.EMAIL_BACKEND = REFUSING
    told(cast)
    actions.send_due()
    supersede(club=cast.club, keys="frost")
    settings.EMAIL_BACKEND = "django.core.mail.backends.locmem.EmailBackend"
    Mail.objects.update(next_try_at=timezone.now())
    assert (actions.send_due(), Mail.objects.get().state) == (0, Sending.NOT_NEEDED)


def wish(cast, who="staff", **differs) -> None:
    usual = {"daily_at": time(6, 30), "weekly_on": 0, "quiet_from": None, "quiet_until": None}
    change_wishes(member=cast[who], **({"paces": {}, "left_out": []} | usual | differs))


def test_of_a_green_left_out_only_warnings_are_mailed_and_all_stands_on_the_site(cast):
    wish(cast, left_out=[cast.green])
    assert len(told(cast, green=cast.green)) == 1
    assert actions.send_due() == 0
    told(cast, green=cast.green, kind=NoticeKind.OPENING, key="early")
    assert actions.send_due() == 1


def test_what_stands_on_the_site_only_is_not_mailed(cast):
    wish(cast, paces={NoticeKind.WEATHER: Pace.SITE})
    assert len(told(cast)) == 1
    assert actions.send_due() == 0


def test_new_wishes_count_for_what_waits_already(cast, time_machine):
    told(cast, kind=NoticeKind.STEPS, key="steps")
    wish(cast, daily_at=time(16, 0))
    assert Notice.objects.get().mail_at == datetime(2026, 4, 16, 15, 0, tzinfo=UTC)
    wish(cast, paces={NoticeKind.STEPS: Pace.AT_ONCE})
    assert actions.send_due() == 1
    wish(cast, paces={NoticeKind.STEPS: Pace.DAILY})
    assert (actions.send_due(), Wish.objects.get().paces) == (0, {})


@pytest.mark.parametrize(
    ("zone", "day", "sent_at"),
    [
        ("Europe/London", "2026-03-29", "2026-03-29T05:30"),  # 23 hours
        ("Europe/London", "2026-10-25", "2026-10-25T06:30"),  # 25 hours
        ("Pacific/Auckland", "2026-04-05", "2026-04-04T18:30"),  # 25 hours
        ("Pacific/Auckland", "2026-09-27", "2026-09-26T17:30"),  # 23 hours
    ],
)
def test_through_a_day_of_23_or_25_hours_one_mail_leaves_at_its_time(cast, time_machine, zone, day, sent_at):
    """Swept every ten minutes from the evening before to the evening after."""
    cast.club.time_zone = zone
    cast.club.save()
    midnight = datetime.fromisoformat(day).replace(tzinfo=cast.club.zone)
    moment = midnight.astimezone(UTC) - timedelta(hours=6)
    time_machine.move_to(moment, tick=False)
    told(cast, kind=NoticeKind.STEPS, key="steps")
    while moment < midnight + timedelta(hours=20):
        actions.send_due()
        moment += timedelta(minutes=10)
        time_machine.move_to(moment, tick=False)
    row = Mail.objects.get()
    assert (len(mail.outbox), row.period) == (1, f"day {day}")
    assert row.sent_at == datetime.fromisoformat(sent_at).replace(tzinfo=UTC)
