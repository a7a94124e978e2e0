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

    def clean_position(self) -> int:
        return int(self.cleaned_data["position"] or 0)
