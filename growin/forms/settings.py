"""Changing one constant of the trade for a club or a green."""

from datetime import date

from crispy_forms.layout import Div, Layout
from django import forms

from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.models import Club, Green
from greens.queries import greens
from growin.agronomy.defaults import Default


class SettingSheet(Sheet):
    in_force_from = DayField(label="In force from")
    green = forms.ModelChoiceField(
        label="For", queryset=Green.objects.none(), required=False, empty_label="every green of the club"
    )
    why = forms.CharField(
        label="Why",
        max_length=500,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="Shown on the settings page and, for a threshold, on the readiness page.",
    )

    def __init__(self, club: Club, default: Default, today: date, *args, **kwargs):
        super().__init__(*args, initial={"in_force_from": today}, **kwargs)
        self.fields["value"] = QuantityField(
            label=default.words, unit=default.unit, low=default.low, high=default.high, decimal_places=4
        )
        self.fields["in_force_from"].earliest = today
        self.fields["green"].queryset = greens.of(club)
        days = Div("in_force_from", "green", css_class="beside")
        self.helper.layout = Layout("value", days, "why")

    def meant(self) -> dict:
        """What the action takes."""
        return {**self.cleaned_data, "value": float(self.cleaned_data["value"])}
