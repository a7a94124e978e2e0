"""The three ways of finding an area, each a short form of its own."""

from datetime import date

from django import forms

from greens.choices import AreaMethod
from greens.forms.pasted import FiguresField
from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.validators.pasted import Range
from growin.agronomy.area import area_by_offsets, area_by_sectors
from growin.agronomy.impossible import ImpossibleValue

LEAST_M2, MOST_M2 = 1, 20_000
PART_HELP = "Leave empty for the whole green; name the apron or a repaired patch to record it alone."


class Measured(Sheet):
    """What all three ways ask for."""

    measured_on = DayField(label="Measured on")
    part = forms.CharField(label="Part of the green", max_length=40, required=False, help_text=PART_HELP)

    def __init__(self, *args, today: date, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["measured_on"].latest = today
        self.fields["measured_on"].initial = today


class TypedArea(Measured):
    area_m2 = QuantityField(label="Area", unit="m²", low=LEAST_M2, high=MOST_M2, decimal_places=2)
    field_order = ["area_m2"]


class FromTape(Measured):
    """Figures of a tape; ``area`` makes m² of them."""

    def clean(self):
        found = super().clean()
        if not self.errors:
            self.refuse_impossible(found)
        return found

    def refuse_impossible(self, found: dict) -> None:
        try:
            area_m2 = self.area(found)
        except ImpossibleValue as refusal:
            self.add_error("values_m", str(refusal))
            return
        if not LEAST_M2 <= area_m2 <= MOST_M2:
            self.add_error(
                "values_m",
                f"These figures make {area_m2:,.1f} m²; a green lies between {LEAST_M2} and {MOST_M2:,} m².",
            )


class RadiiArea(FromTape):
    values_m = FiguresField(
        label="Radii, m",
        of=Range("a radius", "m", 0.1, 80, 2),
        help_text="From one point inside, at equal angles all the way round; 12 or 16 are usual.",
    )
    field_order = ["values_m"]

    def area(self, found: dict) -> float:
        return area_by_sectors(found["values_m"])


class OffsetsArea(FromTape):
    values_m = FiguresField(
        label="Widths, m",
        of=Range("a width", "m", 0, 160, 2),
        help_text="Across the green, in order along the base line; 0 where the edge meets it.",
    )
    spacing_m = QuantityField(
        label="Distance between the widths", unit="m", low=0.1, high=50, decimal_places=2
    )
    field_order = ["values_m", "spacing_m"]

    def area(self, found: dict) -> float:
        return area_by_offsets(found["values_m"], float(found["spacing_m"]))


FORMS: dict[str, type[Measured]] = {
    AreaMethod.TYPED: TypedArea,
    AreaMethod.RADII: RadiiArea,
    AreaMethod.OFFSETS: OffsetsArea,
}
