"""Advice on a green."""

from datetime import date, timedelta

from django import forms

from greens.forms.sheet import DayField, Sheet
from greens.queries.gate import ShorterGate

LONGEST_AGO = timedelta(days=5 * 366)


class AdviceForm(Sheet):
    """Words with their day; where the turf was laid in growth also a word on its gate."""

    on = DayField(label="Dated")
    words = forms.CharField(label="Advice", max_length=4000, widget=forms.Textarea(attrs={"rows": 8}))
    on_gate = forms.BooleanField(required=False)

    def __init__(self, *args, today: date, gate: ShorterGate | None, **kwargs):
        super().__init__(*args, **kwargs)
        self.gate = gate
        self.fields["on"].earliest, self.fields["on"].latest = today - LONGEST_AGO, today
        self.fields["on"].initial = today
        if gate is None:
            self.leave_out("on_gate")
            return
        self.fields["on"].earliest = gate.laid_on
        self.fields["on_gate"].label = gate.no_longer if gate.is_agreed else gate.agrees
        self.fields["on_gate"].help_text = gate.meaning

    def values(self) -> dict:
        """As the action takes them: an untouched tick says nothing of the gate."""
        said = dict(self.cleaned_data)
        if said.pop("on_gate", False):
            said["agrees_to_shorter_gate"] = not self.gate.is_agreed
        return said
