"""One tap: the day that the page showed, what stood there, and the number under which it is kept once."""

from uuid import uuid4

from django import forms

from greens.forms.sheet import DayField, Sheet
from greens.models import Club
from greens.validators.numbers import whole_number


class Tap(Sheet):
    """``shown`` is the row of the step that was on screen: what was planned there is what was done.
    Of several that one tap is for, ``rows_shown`` are the rows."""

    on = DayField(label="Day", required=False)
    client_id = forms.UUIDField(required=False)
    shown = forms.IntegerField(required=False)

    def __init__(self, club: Club, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["on"].latest = self.today = club.local_today()

    def said(self) -> dict:
        """The day, today where none was sent, and the number, a new one where none was."""
        given = self.cleaned_data
        return {"on": given["on"] or self.today, "client_id": given["client_id"] or uuid4()}

    @property
    def rows_shown(self) -> list[int]:
        sent = (whole_number(text) for text in self.data.getlist("steps"))
        return [number for number in sent if number is not None]

    @property
    def refusal(self) -> str:
        """What is wrong with it, in one line."""
        return " ".join(sentence for _, sentence in self.wrongs())
