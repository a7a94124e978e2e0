"""Sums of the ground: sand, coring, water, evenness, drains, seed."""

from crispy_forms.layout import Div
from django import forms

from greens import units
from greens.choices import ProductKind
from greens.forms.pasted import FiguresField
from greens.forms.sheet import QuantityField
from greens.queries import store
from greens.validators.pasted import Range
from growin.agronomy.amounts import BULK_PER_M2, DEPTH_MM
from growin.forms.sum_sheet import LabelField, OnGreens, SumSheet
from growin.queries import sums_of_ground as sums
from growin.queries.sums import Place


class SandSum(OnGreens):
    do = sums.sand_for
    WAYS = {BULK_PER_M2: "kg/m²", DEPTH_MM: "mm"}
    how_much = QuantityField(label="Sand", low=0)
    way = forms.ChoiceField(label="Said in", widget=forms.RadioSelect)
    label = LabelField(
        label="Sand of the store", queryset=None, required=False, empty_label="as the club's sand"
    )
    layout = ("greens", "area_m2", Div("how_much", "way", css_class="beside"), "label")

    def first(self, place: Place, chosen: list[str]) -> dict:
        light = units.written(f"{place.settings['dressing.pass_kg_m2']:g}", self.WAYS[BULK_PER_M2], 2)
        return super().first(place, chosen) | {"way": BULK_PER_M2, "how_much": light}

    def offer(self, place: Place) -> None:
        super().offer(place)
        self.fields["way"].choices = [(way, units.sign(unit)) for way, unit in self.WAYS.items()]
        self.fields["label"].queryset = store.labels_in_use(place.club, ProductKind.SAND).select_related(
            "product__material"
        )

    def clean(self):
        """The unit is known once the way is: only then is the figure judged, and stored."""
        cleaned = super().clean()
        typed, unit = cleaned.get("how_much"), self.WAYS.get(cleaned.get("way"))
        if typed is not None and unit:
            judge = QuantityField(unit=unit, low=0.01, high=100, decimal_places=4)
            try:
                cleaned["how_much"] = judge.clean(typed)
            except forms.ValidationError as refused:
                self.add_error("how_much", refused)
        return cleaned


class CoringSum(OnGreens):
    do = sums.coring
    tine_mm = QuantityField(label="Tine, inside", unit="mm", low=2, high=60)
    spacing_mm = QuantityField(label="Holes apart", unit="mm", low=5, high=500)
    row_spacing_mm = QuantityField(label="Rows apart", unit="mm", low=5, high=500)
    depth_mm = QuantityField(label="Depth", unit="mm", low=5, high=500)
    layout = (
        "greens",
        "area_m2",
        Div("tine_mm", "spacing_mm", "row_spacing_mm", "depth_mm", css_class="beside"),
    )

    def first(self, place: Place, chosen: list[str]) -> dict:
        pattern = {"tine_mm": 12, "spacing_mm": 50, "row_spacing_mm": 50, "depth_mm": 75}
        return super().first(place, chosen) | pattern


class WaterSum(OnGreens):
    do = sums.water
    moisture_percent = QuantityField(label="Moisture now", unit="%", low=0, high=100)
    target_percent = QuantityField(label="Wanted", unit="%", low=0, high=100)
    depth_mm = QuantityField(label="Depth to wet", unit="mm", low=5, high=400)
    evenness_percent = QuantityField(label="Evenness, lowest quarter", unit="%", low=10, high=100)
    output_mm_h = QuantityField(label="Heads put out", unit="mm/h", low=0.5, high=200, required=False)
    layout = (
        "greens",
        "area_m2",
        Div("moisture_percent", "target_percent", "depth_mm", css_class="beside"),
        Div("evenness_percent", "output_mm_h", css_class="beside"),
    )

    def first(self, place: Place, chosen: list[str]) -> dict:
        keys = {
            "target_percent": "water.field_capacity_percent",
            "depth_mm": "water.root_depth_mm",
            "evenness_percent": "water.lower_quarter_percent",
        }
        usual = {name: f"{place.settings[key]:g}" for name, key in keys.items()}
        return super().first(place, chosen) | usual


class EvenSum(SumSheet):
    do = sums.even
    catch_ml = FiguresField(
        label="Caught in each can, ml", of=Range("the catch of a can", "ml", 0, 20_000, 1),
        help_text="One figure for each can, empty ones as 0.",
    )  # fmt: skip


class DrainSum(SumSheet):
    do = sums.drain
    bore_mm = QuantityField(label="Bore of the pipe, inside", unit="mm", low=20, high=600)
    fall_percent = QuantityField(label="Fall", unit="%", low=0.05, high=30)
    drained_m2 = QuantityField(label="Ground that drains to it", unit="m²", low=1, high=100_000)
    rain_mm_h = QuantityField(label="Rain", unit="mm/h", low=0.5, high=300)
    layout = (
        Div("bore_mm", "fall_percent", css_class="beside"),
        Div("drained_m2", "rain_mm_h", css_class="beside"),
    )

    def first(self, place: Place, chosen: list[str]) -> dict:
        return {
            "bore_mm": 80,
            "fall_percent": "0.5",
            "rain_mm_h": f"{place.settings['drain.design_rain_mm_h']:g}",
        }


class SeedSum(OnGreens):
    do = sums.sow
    live_rate_g_m2 = QuantityField(label="Live seed wanted", unit="g/m²", low=0.1, high=200)
    purity_percent = QuantityField(label="Purity", unit="%", low=1, high=100)
    germination_percent = QuantityField(label="Germination", unit="%", low=1, high=100)
    layout = (
        "greens",
        "area_m2",
        Div("live_rate_g_m2", "purity_percent", "germination_percent", css_class="beside"),
    )
