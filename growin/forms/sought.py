"""Looking something up in the diary."""

from datetime import date, timedelta

from crispy_forms.layout import Div
from django import forms

from greens.forms.sheet import DayField, LongSelect, Sheet
from greens.models import Club, Green, Membership
from greens.queries import greens as places
from growin.agronomy.works import WORKS

KINDS = sorted(((key, work.words) for key, work in WORKS.items()), key=lambda pair: pair[1])


class MonthField(forms.CharField):
    """A month as 2026-04; cleans to its first and last day."""

    def __init__(self, **kwargs):
        super().__init__(max_length=7, widget=forms.TextInput(attrs={"type": "month"}), **kwargs)

    def clean(self, value):
        words = super().clean(value)
        if not words:
            return None
        try:
            first = date.fromisoformat(f"{words}-01")
        except ValueError:
            raise forms.ValidationError("This is not a month; write it as 2026-04.") from None
        return first, (first.replace(day=28) + timedelta(days=4)).replace(day=1) - timedelta(days=1)


class Sought(Sheet):
    optional_goes_without_saying = True
    words = forms.CharField(label="Words", required=False, max_length=100)
    green = forms.ModelChoiceField(
        label="Green", queryset=Green.objects.none(), required=False, empty_label="all"
    )
    kind = forms.ChoiceField(label="Kind", choices=[("", "all"), *KINDS], required=False, widget=LongSelect)
    done_by = forms.ModelChoiceField(
        label="Done by", queryset=Membership.objects.none(), required=False, empty_label="anybody"
    )
    month = MonthField(label="Month", required=False)
    first = DayField(label="From", required=False)
    last = DayField(label="To", required=False)
    layout = (
        "words",
        Div("green", "kind", "done_by", css_class="beside"),
        Div("month", "first", "last", css_class="beside"),
    )

    def __init__(self, club: Club, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["green"].queryset = places.of(club)
        self.fields["done_by"].queryset = club.memberships.order_by("name")

    @property
    def is_asking(self) -> bool:
        return any(self.data.get(name) for name in self.fields)

    def asked(self) -> dict:
        """What fits the query; what could not be read asks for nothing."""
        given = {name: value for name, value in self.cleaned_data.items() if value} if self.is_valid() else {}
        first, last = given.pop("month", (None, None))
        return {"first": first, "last": last} | given
