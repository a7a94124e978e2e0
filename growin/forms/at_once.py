"""Kinds of entry that are one tap: the greens are chosen already."""

from django import forms

from greens.forms.sheet import Sheet
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
    client_id = forms.UUIDField(required=False, widget=forms.HiddenInput)

    def __init__(self, club: Club, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.club = club
        self.fields["greens"].queryset = places.of(club)

    def said(self, member: Membership) -> dict:
        """Today, by whoever tapped."""
        return {**self.cleaned_data, "club": self.club, "on": self.club.local_today(), "done_by": member}
