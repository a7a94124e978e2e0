"""A laboratory's sheet: only what it prints is asked."""

from datetime import date, timedelta

from crispy_forms.layout import Div
from django import forms

from greens.forms.sheet import DayField, QuantityField, Sheet
from growin.agronomy.analysis_table import FIGURES, SOIL
from growin.agronomy.soil_test import EXTRACTANTS

LONGEST_AGO = timedelta(days=20 * 366)
USUAL_DEPTH_MM = 100


class AnalysisSheet(Sheet):
    on = DayField(label="Day of the sample")
    laboratory = forms.CharField(label="Laboratory", max_length=80, required=False)

    def __init__(self, *args, kind: str, today: date, **kwargs):
        super().__init__(*args, initial={"on": today, "depth_mm": USUAL_DEPTH_MM}, **kwargs)
        self.kind = kind
        self.fields["on"].latest, self.fields["on"].earliest = today, today - LONGEST_AGO
        of_soil = ()
        if kind == SOIL:
            of_soil = ("extractant", "depth_mm")
            self.fields["extractant"] = forms.ChoiceField(
                label="Extractant", choices=[("", "as the sheet says"), *EXTRACTANTS.items()]
            )
            self.fields["depth_mm"] = QuantityField(
                label="Depth of the sample", unit="mm", low=10, high=400, decimal_places=0
            )
        for figure in FIGURES[kind].values():
            self.fields[figure.key] = QuantityField(
                label=figure.words[:1].upper() + figure.words[1:] if figure.key != "pH" else "pH",
                unit=figure.unit, low=figure.low, high=figure.high, required=False,
            )  # fmt: skip
        self.helper.layout.fields = ["on", "laboratory", *of_soil, Div(*FIGURES[kind], css_class="beside")]

    def values(self) -> dict:
        """As the action takes them."""
        sent = self.cleaned_data
        figures = {key: float(sent[key]) for key in FIGURES[self.kind] if sent.get(key) is not None}
        more = {}
        if self.kind == SOIL:
            more = {"extractant": sent["extractant"], "depth_mm": int(sent["depth_mm"])}
        return {
            "kind": self.kind,
            "on": sent["on"],
            "laboratory": sent["laboratory"],
            "values": figures,
        } | more
