"""Where somebody is signed in: seen, ended one by one, ended everywhere."""

import pytest
from django.contrib.auth.hashers import Argon2PasswordHasher
from django.contrib.sessions.models import Session
from django.test import Client
from django.urls import reverse

from greens.models import Attempt, Device
from greens.validators.browser import device_words
from tests.greens.signing_in import PASSWORD, PHONE, sign_in, signed_in, with_password

YOU = reverse("you")


class Counting(Argon2PasswordHasher):
    """Our hash, counting how often it is made."""

    runs = 0

    def encode(self, password, salt):
        Counting.runs += 1
        return super().encode(password, salt)

    def verify(self, password, encoded):
        Counting.runs += 1
        return super().verify(password, encoded)


@pytest.mark.parametrize(
    ("agent", "words"),
    [
        (PHONE, "Chrome on Android"),
        ("Mozilla/5.0 (iPhone; CPU iPhone OS 19_0 like Mac OS X) Safari/604.1", "Safari on an iPhone"),
        ("Mozilla/5.0 (Windows NT 10.0; Win64; x64) Chrome/140.0 Safari/537.36 Edg/140.0", "Edge on Windows"),
        ("Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0", "Firefox on Linux"),
        ("", "a browser"),
    ],
)  # fmt: skip
def test_a_device_is_called_as_a_person_would_call_it(agent, words):
    assert device_words(agent) == words


pytestmark = pytest.mark.django_db


@pytest.fixture
def person(cast):
    return with_password(cast.staff.person)


def is_in(client: Client) -> bool:
    return client.get(YOU).status_code == 200


def test_one_is_ended_and_the_others_go_on(person):
    phone, shed, desk = (signed_in(person) for _ in range(3))
    row = Device.objects.get(session_key=shed.cookies["sessionid"].value)
    page = desk.get(YOU).content.decode()
    assert (page.count("Chrome on Android"), page.count("this one")) == (5, 1)
    desk.post(reverse("end_device"), {"device": row.pk})
    assert [is_in(one) for one in (phone, shed, desk)] == [True, False, True]


def test_all_others_are_ended_at_once(person):
    phone, shed, desk = (signed_in(person) for _ in range(3))
    desk.post(reverse("end_other_devices"))
    assert [is_in(one) for one in (phone, shed, desk)] == [False, False, True]
    assert (Device.objects.count(), Session.objects.count()) == (1, 1)


def test_nobody_ends_the_device_of_another(cast, person):
    theirs, own = signed_in(with_password(cast.outsider.person)), signed_in(person)
    row = Device.objects.get(person=cast.outsider.person)
    for number in (row.pk, "x", "9" * 30):
        assert own.post(reverse("end_device"), {"device": number}).status_code == 302
    assert is_in(theirs)


def test_signing_out_takes_the_device_off_the_list(person):
    client = signed_in(person)
    client.post(reverse("sign_out"))
    assert Device.objects.count() == 0


def test_a_new_password_ends_every_other_session_and_says_so(
    person, mailoutbox, django_capture_on_commit_callbacks
):
    phone, desk = signed_in(person), signed_in(person)
    said = {"current": "wrong", "password": "wet-sand-and-wind"}
    assert "not your present password" in desk.post(reverse("change_password"), said).content.decode()
    assert is_in(phone)
    with django_capture_on_commit_callbacks(execute=True):
        desk.post(reverse("change_password"), said | {"current": PASSWORD})
    assert [is_in(one) for one in (phone, desk)] == [False, True]
    assert [(mail.to, mail.subject) for mail in mailoutbox] == [([person.email], "Your sign-in has changed")]
    assert Device.objects.get().session_key == desk.cookies["sessionid"].value


def test_when_it_was_last_used_is_kept_to_the_hour(person, time_machine):
    time_machine.move_to("2026-04-16T07:00Z", tick=False)
    client = signed_in(person)
    time_machine.shift(3599)
    client.get(YOU)
    assert f"{Device.objects.get().used_at:%H:%M}" == "07:00"
    time_machine.shift(1)
    client.get(YOU)
    assert f"{Device.objects.get().used_at:%H:%M}" == "08:00"


def test_a_device_of_several_has_no_page_of_its_own(cast, person):
    cast.staff.is_shared = True
    cast.staff.save()
    client = signed_in(person)
    assert client.get(YOU).status_code == 403
    assert client.get(reverse("today", args=[cast.club.slug])).status_code == 200


class TestGuessing:
    @pytest.fixture(autouse=True)
    def at_nine(self, time_machine):
        time_machine.move_to("2026-04-16T09:00Z", tick=False)

    def guessed(self, person, times: int = 30, client: Client | None = None) -> list[int]:
        client = client or Client(REMOTE_ADDR="203.0.113.9")
        return [sign_in(person, client, "wrong").status_code for _ in range(times)]

    def test_who_signed_in_here_before_does_not_wait_for_a_guesser(self, person):
        phone = signed_in(person)
        phone.post(reverse("sign_out"))
        assert self.guessed(person)[-1] == 429
        assert sign_in(person, Client()).status_code == 429
        assert sign_in(person, phone).status_code == 302

    def test_a_known_browser_is_slowed_by_its_own_failures(self, person):
        phone = signed_in(person)
        assert self.guessed(person, 6, phone) == [200] * 5 + [429]

    def test_the_mark_of_one_mailbox_says_nothing_of_another(self, cast, person):
        other = with_password(cast.head.person)
        phone = signed_in(person)
        assert self.guessed(other, 6, phone) == [200] * 5 + [429]

    def test_one_house_counts_as_one_address(self, cast, person):
        """RFC 6177 gives a house 2 to the power of 64 addresses and more."""
        house = [Client(REMOTE_ADDR=f"2001:db8:0:1::{number:x}") for number in range(1, 22)]
        people = [{"email": f"nobody{number}@example.org", "password": "x"} for number in range(21)]
        answers = [
            one.post(reverse("sign_in"), said).status_code for one, said in zip(house, people, strict=True)
        ]
        assert answers == [200] * 20 + [429]

    @pytest.mark.parametrize(("proxies", "kept"), [(0, 1), (1, 2)])
    def test_behind_a_proxy_the_address_is_the_one_that_it_heard(self, person, settings, proxies, kept):
        settings.PROXIES = proxies
        for heard in ("198.51.100.1", "198.51.100.2"):
            client = Client(headers={"X-Forwarded-For": f"192.0.2.1, {heard}"})
            sign_in(person, client, "wrong")
        assert Attempt.objects.values("key").distinct().count() == 1 + kept


def test_an_unknown_mailbox_costs_as_much_hashing_as_a_known_one(cast, person, settings):
    """So that the time of an answer does not tell who has an account: a wrong password is hashed for each."""
    settings.PASSWORD_HASHERS = ["tests.greens.test_device.Counting"]
    person.set_password(PASSWORD)
    person.save()
    person_off = with_password(cast.adviser.person)
    person_off.is_active = False
    person_off.save()
    spent = {}
    for email in (person.email, "nobody@example.org", cast.by_name.name + "@example.org", person_off.email):
        Counting.runs = 0
        Client().post(reverse("sign_in"), {"email": email.replace(" ", ""), "password": "wrong"})
        spent[email] = Counting.runs
    assert set(spent.values()) == {1}
