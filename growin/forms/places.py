"""Where on the green each value was taken: a hidden box that the outline on the page writes into."""

import json

from django import forms

from growin.forms.values import nothing

UNREADABLE = "The places on the green cannot be read; set them again or leave them out."


class PlacesField(forms.CharField):
    """[x, y] in m or null for each box of values, as JSON; cleans to a list."""

    def __init__(self):
        super().__init__(required=False, max_length=20_000, widget=forms.HiddenInput)

    def prepare_value(self, value):
        return json.dumps(value, separators=(",", ":")) if isinstance(value, list) else value

    def to_python(self, value):
        try:
            places = json.loads(value) if value else []
        except (ValueError, RecursionError):
            raise forms.ValidationError(UNREADABLE) from None
        if not isinstance(places, list):
            raise forms.ValidationError(UNREADABLE)
        return places


def beside(places: list, written: list) -> list:
    """The places of those boxes in which something is written."""
    padded = [*places, *[None] * len(written)]
    return [place for place, one in zip(padded, written, strict=False) if not nothing(one)]
