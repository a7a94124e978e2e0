"""A green's particulars."""

from django import forms

from greens.forms.sheet import QuantityField, Sheet


class GreenForm(Sheet):
    name = forms.CharField(
        label="Name", max_length=60, help_text="As your people call it: Seventh, Chipping green."
    )
    position = QuantityField(
        label="Number on the card", low=0, high=99, decimal_places=0, required=False,
        help_text="Sets the order of the greens; leave it out for a practice green.",
    )  # fmt: skip
    distance_to_water_m = QuantityField(
        label="Distance to the nearest surface water",
        unit="m",
        low=0,
        high=9999,
        decimal_places=1,
        required=False,
        help_text="From the edge of the green to pond, ditch, stream or well; feeds near it are warned of.",
    )

    latitude_deg = QuantityField(
        label="Latitude of the point it was measured from", unit="°", low=-90, high=90, decimal_places=6,
        required=False, help_text="Lets a phone say where on the green a reading was taken.",
    )  # fmt: skip
    longitude_deg = QuantityField(
        label="Longitude of that point", unit="°", low=-180, high=180, decimal_places=6, required=False
    )
    bearing_deg = QuantityField(
        label="Direction of the first radius", unit="°", low=0, high=359, decimal_places=0, required=False,
        help_text="By the compass: 0 is north, 90 east. On widths: square to the base line, up the sheet.",
    )  # fmt: skip

    def clean(self):
        self.wants_both("latitude_deg", "longitude_deg", "A position is latitude and longitude")
        return self.cleaned_data

    def clean_position(self) -> int:
        return int(self.cleaned_data["position"] or 0)
