"""Kinds of entry that are one tap: the greens are chosen already."""

from django import forms

from greens.forms.sheet import DayField, Sheet
from greens.models import Club, Green, Membership
from greens.queries import greens as places
from growin.agronomy.works import WORKS

ONE_TAP = [(key, work.words) for key, work in WORKS.items() if work.answer_only]


class AtOnce(Sheet):
    greens = forms.ModelMultipleChoiceField(
        label="Greens",
        queryset=Green.objects.none(),
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Say on which green."},
    )
    kind = forms.ChoiceField(choices=ONE_TAP, widget=forms.HiddenInput)
    on = DayField(required=False, widget=forms.HiddenInput)
    client_id = forms.UUIDField(required=False, widget=forms.HiddenInput)

    def __init__(self, club: Club, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.club = club
        self.fields["greens"].queryset = places.of(club)
        self.fields["on"].latest = club.local_today()

    def said(self, member: Membership) -> dict:
        """On the day that the page showed, by whoever tapped."""
        given = self.cleaned_data
        return {**given, "club": self.club, "on": given["on"] or self.club.local_today(), "done_by": member}
