"""The code beside the password: as RFC 6238 prints it, once each, and never a way to lock anybody out."""

import base64

import pytest
from django.core.management import call_command
from django.test import Client
from django.urls import reverse

from greens.actions import second_step as actions
from greens.models import SecondStep
from tests.greens.signing_in import PASSWORD, code_of, sign_in, signed_in, turned_on, with_password

CODE, WRONG = reverse("give_code"), "000000"


@pytest.mark.parametrize(
    ("second", "printed"),
    [
        (59, "94287082"),
        (1111111109, "07081804"),
        (1111111111, "14050471"),
        (1234567890, "89005924"),
        (2000000000, "69279037"),
        (20000000000, "65353130"),
    ],
)
def test_codes_are_those_of_the_print(second, printed):
    """RFC 6238, appendix B, lines of SHA-1: eight figures there; six are the last six (RFC 4226, 5.3)."""
    key = base64.b32encode(b"12345678901234567890").decode()
    assert actions.code_at(key, second // 30) == printed[-6:]
    assert actions.count_of(key, printed[-6:], second) == second // 30


@pytest.mark.parametrize(("drift", "opens"), [(-2, False), (-1, True), (0, True), (1, True), (2, False)])
def test_half_a_minute_either_side_is_near_enough(drift, opens):
    key = base64.b32encode(b"12345678901234567890").decode()
    at = 1_234_567_890
    assert (actions.count_of(key, actions.code_at(key, at // 30 + drift), at) is not None) == opens


@pytest.fixture
def person(cast, time_machine):
    time_machine.move_to("2026-04-16T07:00:05Z", tick=False)
    return with_password(cast.staff.person)


@pytest.fixture
def asked(person):
    """Of this person a code is asked; its spare codes."""
    return turned_on(person)


def half_in(person, **more) -> Client:
    answer = sign_in(person, **more)
    assert answer.headers["Location"] == CODE
    return answer.client


pytestmark = pytest.mark.django_db


def test_on_a_phone_from_the_password_over_the_code_to_today(cast, person, asked, time_machine):
    today = reverse("today", args=[cast.club.slug])
    client = half_in(person, next=today)
    assert client.get(today).status_code == 302
    time_machine.shift(30)
    answer = client.post(CODE, {"code": code_of(asked[0])})
    assert (answer.headers["Location"], client.get(today).status_code) == (today, 200)


def test_a_code_opens_once_and_none_before_it_opens_any_more(person, asked, time_machine):
    step = asked[0]
    time_machine.shift(60)
    code, older = code_of(step), code_of(step, -1)
    assert half_in(person).post(CODE, {"code": code}).status_code == 302
    again = half_in(person)
    assert [again.post(CODE, {"code": one}).status_code for one in (code, older)] == [200, 200]


def test_a_spare_code_opens_once_however_it_is_typed(person, asked):
    spare = asked[1][3]
    assert half_in(person).post(CODE, {"code": spare.replace(" ", "-")}).status_code == 302
    assert "does not open" in half_in(person).post(CODE, {"code": spare}).content.decode()
    assert asked[0].spare_codes.filter(used_at=None).count() == 9


def test_spare_codes_and_the_key_stand_nowhere_in_plain(asked):
    kept = str(list(asked[0].spare_codes.values_list("code_hash")))
    assert not any(code.replace(" ", "") in kept for code in asked[1])
    assert actions.key_of(asked[0]) not in asked[0].sealed_key


def test_a_site_whose_own_key_was_changed_lets_in_by_spare_code(person, asked, settings):
    settings.SECRET_KEY = "another"
    assert half_in(person).post(CODE, {"code": WRONG}).status_code == 200
    assert half_in(person).post(CODE, {"code": asked[1][0]}).status_code == 302
    settings.SECRET_KEY_FALLBACKS = ["only-for-a-laptop-never-for-a-site-on-the-network"]
    assert actions.key_of(SecondStep.objects.get()) != ""


def test_guessing_codes_is_slowed_though_the_password_is_known(person, asked, time_machine):
    client = half_in(person)
    answers = [client.post(CODE, {"code": WRONG}).status_code for _ in range(6)]
    assert answers == [200] * 5 + [429]
    assert (
        sign_in(person, Client()).status_code == 429
    )  # the password clears nothing before the code is right
    time_machine.shift(31)
    assert client.post(CODE, {"code": code_of(asked[0])}).status_code == 302


def test_the_page_of_the_code_is_for_those_who_gave_the_password_just_now(person, asked, time_machine):
    assert Client().get(CODE).headers["Location"] == reverse("sign_in")
    client = half_in(person)
    time_machine.shift(601)
    assert client.post(CODE, {"code": code_of(asked[0])}).headers["Location"] == reverse("sign_in")


def test_it_is_set_up_by_scanning_and_shown_once(person, time_machine, mailoutbox):
    client = signed_in(person)
    begun = client.post(reverse("begin_code"), {"current": PASSWORD})
    assert begun.headers["Location"] == reverse("set_up_code")
    picture = client.get(reverse("code_key"))
    assert (picture["Content-Type"], "no-store" in picture["Cache-Control"]) == ("image/svg+xml", True)
    step = SecondStep.objects.get()
    assert sign_in(person).headers["Location"] == "/"  # asked of nobody before it works
    assert "does not open" in client.post(reverse("set_up_code"), {"code": WRONG}).content.decode()
    shown = client.post(reverse("set_up_code"), {"code": code_of(step)}).content.decode()
    assert shown.count('class="secret"') == 10
    assert client.get(reverse("code_key")).status_code == 404
    assert client.get(reverse("you")).status_code == 200  # and nobody is signed out by it


def test_it_is_begun_and_taken_off_with_the_password_alone(person, asked):
    client = half_in(person)
    client.post(CODE, {"code": asked[1][0]})
    assert (
        "not your present password"
        in client.post(reverse("take_off_code"), {"current": "x"}).content.decode()
    )
    assert SecondStep.objects.exists()
    client.post(reverse("take_off_code"), {"current": PASSWORD})
    assert not SecondStep.objects.exists()
    assert sign_in(person).headers["Location"] == "/"


def test_new_spare_codes_end_the_old_ones(person, asked):
    client = half_in(person)
    client.post(CODE, {"code": asked[1][0]})
    shown = client.post(reverse("spare_codes"), {"current": PASSWORD}).content.decode()
    assert shown.count('class="secret"') == 10
    assert half_in(person).post(CODE, {"code": asked[1][1]}).status_code == 200


def test_the_operator_takes_a_lost_one_off(person, asked, capsys):
    call_command("take_off_code", person.email.upper())
    assert "signs in with the password alone" in capsys.readouterr().out
    assert sign_in(person).headers["Location"] == "/"
