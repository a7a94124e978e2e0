"""One tap: the day that the page showed, the step as it stood there, and the number of the tap."""

from django import forms

from greens.forms.sheet import DayField, Sheet
from greens.models import Club


class Tap(Sheet):
    """``shown`` is the row of the step that was on screen: what was planned then is what was done."""

    on = DayField(required=False, widget=forms.HiddenInput)
    shown = forms.IntegerField(required=False, widget=forms.HiddenInput)
    client_id = forms.UUIDField(required=False, widget=forms.HiddenInput)

    def __init__(self, club: Club, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["on"].latest = self.today = club.local_today()

    def said(self) -> dict:
        """What a deed takes of it."""
        return self.cleaned_data | {"on": self.cleaned_data["on"] or self.today}
