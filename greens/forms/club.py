"""The club's particulars, and its monthly normals."""

import calendar
import zoneinfo

from crispy_forms.layout import Div
from django import forms

from greens.choices import Units
from greens.forms.sheet import LongSelect, QuantityField, Sheet

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
