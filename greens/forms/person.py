"""Signing in and passwords."""

from django import forms
from django.contrib.auth import password_validation

from greens.forms.sheet import Sheet

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
