"""Naming a token, and what the button beside one sends."""

from collections.abc import Mapping

from django import forms

from greens.forms.sheet import Sheet
from greens.validators.numbers import whole_number


class NewToken(Sheet):
    name = forms.CharField(
        label="What is it for", max_length=60, help_text="Such as: the screen in the clubhouse."
    )


def asked_token(sent: Mapping) -> int | None:
    """The number of a token; None for anything that is none."""
    return whole_number(sent.get("token", ""))
