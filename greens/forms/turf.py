"""The turf that was laid."""

from datetime import date

from django import forms

from greens.choices import MaterialKind
from greens.forms.pasted import SharesField
from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.models import Club
from greens.queries import record


class TurfForm(Sheet):
    optional_goes_without_saying = True
    source = forms.CharField(label="Grower, or where it was lifted", max_length=80, required=False)
    age_months = QuantityField(label="Age", unit="months", low=0, high=600, decimal_places=0, required=False)
    lifted_on = DayField(label="Lifted on", required=False)
    cut_thickness_mm = QuantityField(
        label="Cut thickness", unit="mm", low=1, high=100, decimal_places=1, required=False
    )
    thatch_mm = QuantityField(label="Thatch", unit="mm", low=0, high=100, decimal_places=1, required=False)
    species_percent = SharesField(
        label="Grasses", required=False, help_text="One a line with its share: “browntop bent 40”."
    )
    soil = forms.ModelChoiceField(
        None, label="Soil of the turf", required=False, empty_label="not recorded",
        help_text="A material with its grading; a soil finer than the rootzone layers on it.",
    )  # fmt: skip

    def __init__(self, *args, club: Club, today: date, laid_on: date | None, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["soil"].queryset = record.materials(club).filter(kind=MaterialKind.TURF_SOIL)
        self.fields["lifted_on"].latest = laid_on or today

    def clean(self):
        found = super().clean()
        thick, thatch = found.get("cut_thickness_mm"), found.get("thatch_mm")
        if thick is not None and thatch is not None and thatch > thick:
            self.add_error("thatch_mm", f"{thatch:g} mm of thatch cannot lie in turf cut {thick:g} mm thick.")
        return found
