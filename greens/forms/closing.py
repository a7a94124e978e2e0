"""Closing a club: its name typed, and the own password."""

from django import forms

from greens.forms.person import Own, present_password
from greens.forms.sheet import Sheet
from greens.models import Club, Person


class CloseClub(Own, Sheet):
    name = forms.CharField(label="Name of the club, as it stands above", max_length=80)
    current = present_password()

    def __init__(self, *args, club: Club, person: Person, **kwargs):
        super().__init__(*args, **kwargs)
        self.club, self.person = club, person

    def clean_name(self):
        typed = self.cleaned_data["name"].strip()
        if typed.casefold() != self.club.name.casefold():
            raise forms.ValidationError(f"This is not the name of the club: it is {self.club.name}.")
        return typed
