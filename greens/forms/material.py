"""A material with its laboratory sheet."""

from crispy_forms.layout import Div, Fieldset
from django import forms

from greens.choices import MaterialKind
from greens.forms.pasted import PairsField
from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.validators.pasted import Range
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.rootzone import sieve_diameter

PASSING, RETAINED = "passing", "retained"
GRADING_HELP = (
    "One sieve a line, its size in mm and the per cent by weight: “0.5 62”. Silt and clay go in at "
    "0.05 and 0.002 mm."
)


def percent(label: str) -> QuantityField:
    return QuantityField(label=label, unit="%", low=0, high=100, decimal_places=2, required=False)


#: How far a laboratory's sheet may be off by rounding, % by volume (our judgement).
ROUNDING_PERCENT = 2


class MaterialForm(Sheet):
    kind = forms.ChoiceField(label="It is", choices=MaterialKind.choices, widget=forms.RadioSelect)
    name = forms.CharField(
        label="Name", max_length=80, help_text="So that it is told from the others: pit, mix, delivery."
    )
    laboratory = forms.CharField(label="Laboratory", max_length=80, required=False)
    tested_on = DayField(label="Tested on", required=False)
    given_as = forms.ChoiceField(
        label="The sheet gives",
        choices=[(PASSING, "per cent passing each sieve"), (RETAINED, "per cent retained on each sieve")],
        widget=forms.RadioSelect,
        initial=PASSING,
    )
    grading = PairsField(
        label="Grading",
        rows=8,
        first=Range("the sieve", "mm", 0.0001, 200, 4),
        second=Range("the per cent", "%", 0, 100, 2),
        help_text=GRADING_HELP,
        required=False,
    )
    total_porosity_percent = percent("Total porosity")
    air_filled_percent = percent("Air-filled pores")
    capillary_percent = percent("Capillary pores")
    organic_matter_percent = percent("Organic matter")
    carbonate_percent = percent("Calcium carbonate")
    ksat_mm_h = QuantityField(label="Ksat", unit="mm/h", low=0, high=20_000, decimal_places=1, required=False)
    bulk_density_t_m3 = QuantityField(
        label="Bulk density, dry", unit="t/m³", low=0.3, high=3, decimal_places=2, required=False
    )
    layout = (
        "kind",
        Div("name", "laboratory", "tested_on", css_class="beside"),
        Fieldset("Grading", "given_as", "grading"),
        Fieldset(
            "Physics",
            Div("total_porosity_percent", "air_filled_percent", "capillary_percent", css_class="beside"),
            Div("organic_matter_percent", "carbonate_percent", css_class="beside"),
            Div("ksat_mm_h", "bulk_density_t_m3", css_class="beside"),
        ),
    )

    def __init__(self, *args, today, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["tested_on"].latest = today

    def clean(self):
        found = super().clean()
        grading, given_as = found.get("grading"), found.pop("given_as", PASSING)
        if grading:
            found["grading"] = self.checked(as_passing(grading) if given_as == RETAINED else grading)
        self.check_pores(
            *(found.get(f"{name}_percent") for name in ("total_porosity", "air_filled", "capillary"))
        )
        return found

    def check_pores(self, total, air, capillary) -> None:
        """Air-filled and capillary pores are all there are; laboratories round."""
        if None in (total, air, capillary) or abs(air + capillary - total) <= ROUNDING_PERCENT:
            return
        together = f"Air-filled {air:g} and capillary {capillary:g} add up to {air + capillary:g} %"
        self.add_error("total_porosity_percent", f"{together}, not to the total of {total:g} %.")

    def checked(self, grading: list) -> list:
        """Coarse to fine, once it makes a curve."""
        rows = sorted(grading, reverse=True)
        try:
            sieve_diameter(
                [sieve for sieve, _ in rows], [one for _, one in rows], max(one for _, one in rows)
            )
        except ImpossibleValue as refusal:
            self.add_error("grading", str(refusal))
        return rows


def as_passing(retained: list) -> list:
    """Per cent passing from per cent retained, coarse to fine."""
    passing, kept = [], 0.0
    for sieve, percent_retained in sorted(retained, reverse=True):
        kept += percent_retained
        passing.append([sieve, round(100 - kept, 2)])
    return passing
