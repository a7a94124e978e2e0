"""One tap as the day's page sends it: which day it showed, and the number under which it is kept once."""

from uuid import uuid4

from django import forms

from greens.forms.sheet import DayField, Sheet
from greens.models import Club


class Tap(Sheet):
    on = DayField(label="Day", required=False)
    client_id = forms.UUIDField(required=False)
    what = forms.CharField(required=False, max_length=80)

    def __init__(self, club: Club, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.club = club
        self.fields["on"].latest = club.local_today()

    def said(self) -> dict:
        """The day, today where none was sent, and the number, a new one where none was."""
        given = self.cleaned_data
        return {"on": given["on"] or self.club.local_today(), "client_id": given["client_id"] or uuid4()}

    @property
    def refusal(self) -> str:
        """What is wrong with it, in one line."""
        return " ".join(sentence for wrongs in self.errors.values() for sentence in wrongs)
