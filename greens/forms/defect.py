"""Defects for the contractor."""

from datetime import date

from django import forms

from greens.forms.sheet import DayField, Sheet
from growin.agronomy.fields import TEXT_LIMIT
from growin.agronomy.plain_words import dated


class DefectForm(Sheet):
    what = forms.CharField(label="What is wrong", max_length=TEXT_LIMIT)
    place = forms.CharField(label="Where", max_length=TEXT_LIMIT, required=False)
    found_on = DayField(label="Found on")
    due_on = DayField(label="To be put right by", required=False, help_text="Empty until a day is agreed.")

    def __init__(self, *args, today: date, works_started_on: date, **kwargs):
        super().__init__(*args, **kwargs)
        found = self.fields["found_on"]
        found.latest, found.earliest, found.initial = today, works_started_on, today

    def clean(self):
        values = super().clean()
        found, due = values.get("found_on"), values.get("due_on")
        if found and due and due < found:
            self.add_error("due_on", f"{dated(due)} lies before the day it was found, {dated(found)}.")
        return values


class PutRight(Sheet):
    on = DayField(label="Put right on", required=False, help_text="Empty opens the defect again.")

    def __init__(self, *args, today: date, found_on: date, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["on"].latest, self.fields["on"].earliest = today, found_on
