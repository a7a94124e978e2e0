"""Mail over a real connection to a real server that is slow, busy, hangs up, or knows nobody of that name.

Nobody waits here for the pause between two tries: it is moved back in the row.
"""

import pytest
from django.utils import timezone

from greens.actions import mail as actions
from greens.actions.notice import Telling, tell
from greens.choices import NoticeKind, Sending
from greens.config.env import env
from greens.models import Mail, Notice, Person
from tests.mail_server import post

pytestmark = pytest.mark.django_db


@pytest.fixture
def server(settings):
    with post() as one:
        for name, value in env.email_url_config(one.url).items():
            setattr(settings, name, value)
        yield one


@pytest.fixture
def told(cast):
    """Frost, told to four members and due at once."""
    telling = Telling(kind=NoticeKind.WEATHER, key="frost", subject="Frost tonight", text="Keep off.")
    tell(club=cast.club, to=[cast.head, cast.staff, cast.committee, cast.adviser], telling=telling)
    Notice.objects.update(mail_at=timezone.now(), period="")
    return cast


def send_all() -> None:
    """Again and again, as if every pause were over, until nothing waits."""
    for _ in range(len(actions.PAUSES) + 1):
        Mail.objects.update(next_try_at=timezone.now())
        actions.send_due()
        if not Mail.objects.filter(state=Sending.WAITING).exists():
            return


def email(cast, role: str) -> str:
    return cast[role].person.email


def everybody(cast) -> dict[str, int]:
    return {email(cast, role): 1 for role in ("head", "staff", "committee", "adviser")}


def test_what_is_due_together_goes_over_one_connection(told, server):
    assert (actions.send_due(), server.greeted) == (4, 1)
    assert server.addresses == everybody(told)


def test_a_slow_server_gets_every_mail_once(told, server):
    server.thinks_s = 1
    send_all()
    assert server.addresses == everybody(told)
    assert set(server.copies.values()) == {1}


def test_while_an_address_is_busy_the_others_leave_and_it_is_tried_again(told, server):
    server.busy[email(told, "staff")] = 2
    assert actions.send_due() == 3
    waiting = Mail.objects.get(state=Sending.WAITING)
    assert (waiting.person, waiting.error) == (told.staff.person, "451 4.3.2 Not now, try again later")
    send_all()
    assert server.addresses == everybody(told)
    waiting.refresh_from_db()
    assert (waiting.state, waiting.tries, waiting.error) == (Sending.SENT, 3, "")


def test_where_nobody_lives_a_mail_is_given_up_at_once_and_says_why(told, server):
    nobody = email(told, "committee")
    server.unknown.add(nobody)
    assert actions.send_due() == 3
    row = Mail.objects.get(person__email=nobody)
    assert (row.state, row.tries, row.error) == (
        Sending.GIVEN_UP,
        1,
        "550 5.1.1 Nobody of that name lives here",
    )
    send_all()
    assert server.addresses == {who: 1 for who in everybody(told) if who != nobody}


@pytest.mark.parametrize("command", ["RCPT", "DATA"])
def test_a_server_that_hangs_up_before_it_took_a_mail_gets_it_once_in_the_end(told, server, command):
    server.hangs_up = {email(told, "head"): command, email(told, "adviser"): command}
    assert actions.send_due() == 2
    assert Mail.objects.filter(state=Sending.WAITING).exclude(error="").count() == 2
    send_all()
    assert server.addresses == everybody(told)
    assert set(server.copies.values()) == {1}


def test_a_server_that_says_nothing_is_left_after_a_while(told, server, settings):
    settings.EMAIL_TIMEOUT, server.thinks_s = 0.3, 30
    assert actions.send_due() == 0
    assert set(Mail.objects.values_list("state", "error")) == {
        (Sending.WAITING, "Connection unexpectedly closed: timed out")
    }
    server.thinks_s = 0
    send_all()
    assert server.addresses == everybody(told)


def test_no_server_at_all_leaves_every_mail_waiting(told, settings):
    with post() as gone:
        nowhere = env.email_url_config(gone.url)
    for name, value in nowhere.items():
        setattr(settings, name, value)
    assert actions.send_due() == 0
    assert Mail.objects.filter(state=Sending.WAITING, tries=1).count() == 4


def test_a_mail_that_cannot_be_written_holds_up_no_other(told, server):
    Person.objects.filter(pk=told.head.person_id).update(email="isla\n@example.org")
    assert actions.send_due() == 3
    row = Mail.objects.get(person=told.head.person)
    assert (row.state, row.tries, row.claimed_at) == (Sending.WAITING, 1, None)
    assert row.error.startswith("Invalid address")


def test_a_subject_is_one_line_whatever_was_typed(told, server):
    Notice.objects.filter(to=told.head).update(subject="Frost\r\ntonight")
    assert actions.send_due() == 4
    mine = next(one for one in server.taken if one["To"] == email(told, "head"))
    assert mine["Subject"] == "Marram Links: Frost tonight"


def test_no_mail_server_is_waited_for_longer_than_its_while(settings):
    assert settings.EMAIL_TIMEOUT == 60
