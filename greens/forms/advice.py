"""Advice on a green."""

from datetime import date

from django import forms

from greens.forms.sheet import DayField, Sheet


class AdviceForm(Sheet):
    on = DayField(label="Dated")
    words = forms.CharField(label="Advice", max_length=4000, widget=forms.Textarea(attrs={"rows": 8}))

    def __init__(self, *args, today: date, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["on"].latest = today
        self.fields["on"].initial = today
