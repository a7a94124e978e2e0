"""Proposing a day for opening, and withdrawing it."""

from datetime import date, timedelta

from django import forms

from greens.forms.sheet import DayField, Sheet
from growin.actions.proposal import LONGEST_WHY
from growin.forms.decision import WHAT_PATTERNS_MEAN
from growin.models import Pattern

FORTNIGHT = timedelta(days=14)


class ProposalSheet(Sheet):
    opening_on = DayField(label="Opening on")
    pattern = forms.ChoiceField(
        label="Pattern of play",
        choices=[one for one in Pattern.choices if one[0] != Pattern.CLOSED],
        widget=forms.RadioSelect,
        help_text=WHAT_PATTERNS_MEAN,
    )

    def __init__(self, today: date, *args, **kwargs):
        initial = {"opening_on": today + FORTNIGHT, "pattern": Pattern.ALTERNATE}
        super().__init__(*args, initial=initial, **kwargs)


class WithdrawSheet(Sheet):
    why = forms.CharField(
        label="Why is it withdrawn?",
        max_length=LONGEST_WHY,
        required=False,
        widget=forms.Textarea(attrs={"rows": 2}),
    )
