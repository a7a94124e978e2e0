"""Somebody of the cast with a password, and browsers to sign in with."""

from django.test import Client
from django.urls import reverse
from django.utils import timezone

from greens.actions import second_step as actions
from greens.models import Person, SecondStep

PASSWORD = "a-dry-east-wind"
PHONE = (
    "Mozilla/5.0 (Linux; Android 16) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0 Mobile Safari/537.36"
)


def with_password(person: Person) -> Person:
    person.set_password(PASSWORD)
    person.save()
    return person


def sign_in(person: Person, client: Client | None = None, password: str = PASSWORD, **more):
    """The answer of the door; the browser that asked stands in it as ``client``."""
    client = client or Client(headers={"User-Agent": PHONE})
    return client.post(reverse("sign_in"), {"email": person.email, "password": password, **more})


def signed_in(person: Person) -> Client:
    return sign_in(person).client


def turned_on(person: Person) -> tuple[SecondStep, list[str]]:
    """A code is asked of this person from now on; with the spare codes. The present code is spent."""
    step = actions.begin(person=person)
    return step, actions.turn_on(step=step, code=code_of(step))


def code_of(step: SecondStep, ahead: int = 0) -> str:
    """What the authenticator shows now, or so many half minutes on."""
    at = int(timezone.now().timestamp()) // actions.HALF_MINUTE_S
    return actions.code_at(actions.key_of(step), at + ahead)
