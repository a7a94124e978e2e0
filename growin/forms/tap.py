"""One tap: the day that the page showed, what stood there, and the number under which it is kept once."""

from uuid import uuid4

from django import forms

from greens.forms.sheet import DayField, Sheet
from greens.models import Club


class Tap(Sheet):
    """``shown`` is the row of the step that was on screen: what was planned there is what was done.
    ``what`` names the work that is due alike on several greens."""

    on = DayField(label="Day", required=False)
    client_id = forms.UUIDField(required=False)
    shown = forms.IntegerField(required=False)
    what = forms.CharField(required=False, max_length=80)

    def __init__(self, club: Club, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["on"].latest = self.today = club.local_today()

    def said(self) -> dict:
        """The day, today where none was sent, and the number, a new one where none was."""
        given = self.cleaned_data
        return {"on": given["on"] or self.today, "client_id": given["client_id"] or uuid4()}

    @property
    def refusal(self) -> str:
        """What is wrong with it, in one line."""
        return " ".join(sentence for _, sentence in self.wrongs())
