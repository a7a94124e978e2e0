"""Signing in and passwords."""

from collections.abc import Mapping

from django import forms
from django.contrib.auth import password_validation

from greens.forms.sheet import Sheet
from greens.validators.numbers import whole_number

PASSWORD = {"strip": False, "max_length": 200}


class SignIn(Sheet):
    email = forms.EmailField(
        label="E-mail",
        max_length=254,
        widget=forms.EmailInput(attrs={"autocomplete": "username", "autofocus": True}),
    )
    password = forms.CharField(
        label="Password", widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}), **PASSWORD
    )

    refusal = "E-mail and password do not belong together."

    @property
    def mailbox(self) -> str:
        return self.cleaned_data["email"]

    def credentials(self) -> dict:
        return {"username": self.cleaned_data["email"].lower(), "password": self.cleaned_data["password"]}


class AskReset(Sheet):
    email = forms.EmailField(
        label="E-mail", max_length=254, widget=forms.EmailInput(attrs={"autocomplete": "username"})
    )


class NewPassword(Sheet):
    """``person`` helps to refuse a password made of the person's own name."""

    password = forms.CharField(
        label="New password",
        help_text="At least 10 characters; a few words in a row are good.",
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        **PASSWORD,
    )

    def __init__(self, *args, person=None, **kwargs):
        super().__init__(*args, **kwargs)
        self.person = person

    def clean_password(self):
        password = self.cleaned_data["password"]
        password_validation.validate_password(password, self.person)
        return password


class TakeUp(NewPassword):
    """Joining by invitation, for somebody who is new here."""

    name = forms.CharField(
        label="Your name", max_length=80, widget=forms.TextInput(attrs={"autocomplete": "name"})
    )
    field_order = ["name", "password"]


class GiveCode(Sheet):
    """The code beside the password, from the phone or from the paper with the spare ones."""

    refusal = "This code does not open. Each opens once, for about a minute: take the next one."
    code = forms.CharField(
        label="Code",
        max_length=60,
        help_text="Six figures from the authenticator on your phone, or one of your spare codes.",
        widget=forms.TextInput(
            attrs={
                "autocomplete": "one-time-code",
                "inputmode": "numeric",
                "autofocus": True,
                "class": "long",
            }
        ),
    )

    def __init__(self, person, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.mailbox = person.email


def present_password() -> forms.CharField:
    widget = forms.PasswordInput(attrs={"autocomplete": "current-password"})
    return forms.CharField(label="Your present password", widget=widget, **PASSWORD)


class Own:
    """The present password, asked for before something that whoever finds an open phone must not do."""

    refusal = "This is not your present password."

    @property
    def mailbox(self) -> str:
        return self.person.email

    def is_own(self) -> bool:
        return self.person.check_password(self.cleaned_data["current"])


class OwnPassword(Own, Sheet):
    current = present_password()

    def __init__(self, *args, person, **kwargs):
        super().__init__(*args, **kwargs)
        self.person = person


class ChangePassword(Own, NewPassword):
    current = present_password()
    field_order = ["current", "password"]


def asked_device(sent: Mapping) -> int | None:
    """The number of a device in the list; None for anything that is none."""
    return whole_number(sent.get("device", ""))
