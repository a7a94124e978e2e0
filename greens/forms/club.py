"""The club's particulars, and its monthly normals."""

import calendar
import zoneinfo
from contextlib import suppress
from datetime import datetime

from crispy_forms.layout import Div
from django import forms

from greens.choices import Units
from greens.forms.sheet import LongSelect, QuantityField, Sheet
from growin.agronomy.closed_time import A_LEAP_YEAR, in_words
from growin.agronomy.impossible import ImpossibleValue

ZONES = sorted(zone for zone in zoneinfo.available_timezones() if "/" in zone and not zone.startswith("Etc"))


class Particulars(Sheet):
    name = forms.CharField(label="Name of the club", max_length=80)
    latitude_deg = QuantityField(
        label="Latitude",
        unit="°",
        low=-66,
        high=66,
        decimal_places=3,
        help_text="North is positive, south negative; it sets day length and the seasons.",
    )
    altitude_m = QuantityField(label="Height above the sea", unit="m", low=-100, high=4000, decimal_places=0)
    time_zone = forms.ChoiceField(
        label="Time zone", choices=[(zone, zone.replace("_", " ")) for zone in ZONES], widget=LongSelect
    )
    units = forms.ChoiceField(
        label="Units",
        choices=Units.choices,
        widget=forms.RadioSelect,
        help_text="Pages and forms are read and typed in them; what is kept does not change.",
    )
    day_spread_c = QuantityField(
        label="Day-to-day spread of the mean temperature",
        unit="°C more or less",
        low=0,
        high=10,
        decimal_places=1,
        help_text="How far a day's mean usually lies from the normal.",
    )


class DayOfYear(forms.CharField):
    """A day of any year: "15 October" or "15/10"; kept as "10-15"."""

    SHAPES = ("%d %B", "%d %b", "%d/%m", "%d.%m", "%d.%m.", "%m-%d")

    def to_python(self, value):
        text = super().to_python(value).strip()
        if not text:
            return ""
        for shape in self.SHAPES:
            with suppress(ValueError):
                return f"{datetime.strptime(f'{text} {A_LEAP_YEAR}', f'{shape} %Y'):%m-%d}"
        raise forms.ValidationError(f"“{text[:20]}” is not a day of the year; write it as 15 October.")

    def prepare_value(self, value):
        """What is kept, in words; what was typed, as it was typed."""
        try:
            return in_words(value) if value else ""
        except ImpossibleValue:
            return value


class FeedingRules(Sheet):
    feeding_rules = forms.CharField(
        label="Rules for feeding here",
        widget=forms.Textarea(attrs={"rows": 5}),
        max_length=2000,
        required=False,
        help_text="In your own words: the law of the place, the water company, the club. Shown where feeding "
        "is planned and added up.",
    )
    year_limit_n_kg_ha = QuantityField(
        label="Nitrogen a year, at most", unit="kg/ha", low=0, high=500, decimal_places=1, required=False
    )
    year_limit_p_kg_ha = QuantityField(
        label="Phosphorus (P) a year, at most",
        unit="kg/ha",
        low=0,
        high=200,
        decimal_places=1,
        required=False,
    )
    closed_from = DayOfYear(label="No feeding from", max_length=20, required=False)
    closed_until = DayOfYear(label="until", max_length=20, required=False)
    layout = (
        "feeding_rules",
        Div("year_limit_n_kg_ha", "year_limit_p_kg_ha", css_class="beside"),
        Div("closed_from", "closed_until", css_class="beside"),
    )

    def clean(self):
        said = super().clean()
        self.wants_both("closed_from", "closed_until", "A closed time has a first and a last day")
        return said


class Normals(Sheet):
    """Twelve means and, where known, twelve sums of rain."""

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        for month in range(1, 13):
            name = calendar.month_name[month]
            self.fields[f"mean_{month}"] = QuantityField(
                label=f"{name}, mean", unit="°C", low=-40, high=45, decimal_places=1
            )
            self.fields[f"rain_{month}"] = QuantityField(
                label=f"{name}, rain", unit="mm", low=0, high=1500, decimal_places=1, required=False
            )
        self.helper.layout.fields = [
            Div(f"mean_{month}", f"rain_{month}", css_class="beside") for month in range(1, 13)
        ]

    def means_c(self) -> list:
        return [self.cleaned_data[f"mean_{month}"] for month in range(1, 13)]

    def rain_mm(self) -> list:
        return [self.cleaned_data[f"rain_{month}"] for month in range(1, 13)]
