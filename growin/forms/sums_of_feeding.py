"""Sums of feeding: product for a rate, tank mix, spreader, sprayer, soil test, clippings."""

from decimal import Decimal

from crispy_forms.layout import Div
from django import forms

from greens import units
from greens.choices import ProductKind, Units
from greens.forms.pasted import FiguresField
from greens.forms.sheet import QuantityField
from greens.models import Label
from greens.queries import store
from greens.validators.pasted import Range
from growin.agronomy.label import ELEMENTS
from growin.agronomy.soil_test import EXTRACTANTS, MEHLICH_3, NUTRIENTS
from growin.forms.sum_sheet import LabelField, OnGreens, SumSheet
from growin.queries import sums_of_feeding as sums
from growin.queries.sums import Place

FEEDS = (ProductKind.GRANULAR, ProductKind.LIQUID, ProductKind.OTHER)


class ProductSum(OnGreens):
    do = sums.product
    label = LabelField(label="Product", queryset=None, empty_label=None)
    element = forms.ChoiceField(label="Nutrient", choices=[(one, one) for one in ELEMENTS])
    rate_kg_ha = QuantityField(label="Rate of the nutrient", unit="kg/ha", low=0.01, high=500)
    hopper_kg = QuantityField(label="Hopper holds", unit="kg", low=0.5, high=2000, required=False)
    layout = ("greens", "area_m2", "label", Div("element", "rate_kg_ha", "hopper_kg", css_class="beside"))

    def offer(self, place: Place) -> None:
        super().offer(place)
        self.fields["label"].queryset = (
            store.labels_in_use(place.club, *FEEDS).filter(lines__isnull=False).distinct()
        )


class TankSum(OnGreens):
    do = sums.tank
    PRODUCTS = (1, 2, 3)
    water_l_ha = QuantityField(label="Water", unit="l/ha", low=10, high=20_000)
    tank_l = QuantityField(label="Tank holds", unit="l", low=1, high=10_000)

    def first(self, place: Place, chosen: list[str]) -> dict:
        return super().first(place, chosen) | {"water_l_ha": 400}

    def offer(self, place: Place) -> None:
        super().offer(place)
        offered = store.labels_in_use(place.club).exclude(
            product__kind__in=(ProductKind.SAND, ProductKind.SEED)
        )
        for number in self.PRODUCTS:
            self.fields[f"label_{number}"] = LabelField(
                label=f"Product {number}", queryset=offered, required=False, empty_label="none"
            )
            self.fields[f"rate_{number}"] = QuantityField(
                label="Its rate", unit=rate_unit(), low=0.001, high=2000, decimal_places=3, required=False
            )
        pairs = [Div(f"label_{n}", f"rate_{n}", css_class="beside") for n in self.PRODUCTS]
        self.helper.layout.fields = [
            "greens", "area_m2", Div("water_l_ha", "tank_l", css_class="beside"), *pairs,
        ]  # fmt: skip

    def clean(self):
        cleaned = super().clean()
        for number in self.PRODUCTS:
            label, rate = cleaned.get(f"label_{number}"), cleaned.get(f"rate_{number}")
            if label and rate is None and f"rate_{number}" not in self.errors:
                self.add_error(f"rate_{number}", f"How much {label.product} on each hectare?")
            if rate is not None and not label:
                self.add_error(f"label_{number}", "Choose the product that this rate belongs to.")
        return cleaned

    def inputs(self) -> dict:
        given = super().inputs()
        pairs = [(given.pop(f"label_{n}"), given.pop(f"rate_{n}")) for n in self.PRODUCTS]
        return given | {"mix": [(label, stored_rate(label, rate)) for label, rate in pairs if label]}


def rate_unit() -> str:
    """What the rate of a liquid or a solid is typed in, before it is known which it is."""
    return "US gal or lb/1,000 ft²" if units.active() == Units.US else "l or kg/ha"


def stored_rate(label: Label, typed: Decimal) -> Decimal:
    """l/ha of a liquid, kg/ha of a solid."""
    return units.stored(typed, "l/ha" if label.is_liquid else "kg/ha", 3)


class SpreaderSum(SumSheet):
    do = sums.spreader
    wanted_g_m2 = QuantityField(label="Product wanted", unit="g/m²", low=0.1, high=5000)
    run_m = QuantityField(label="Length of the run", unit="m", low=0.5, high=500)
    swath_m = QuantityField(label="Swath", unit="m", low=0.1, high=30)
    pans_g = FiguresField(
        label="Caught in each pan, g", required=False, of=Range("the catch of a pan", "g", 0, 20_000, 2),
        help_text="All pans across the swath, one figure each: 6.2, 8.1, 7.9",
    )  # fmt: skip
    pan_area_m2 = QuantityField(
        label="One pan", unit="m²", low=0.001, high=10, decimal_places=4, required=False
    )
    layout = (Div("wanted_g_m2", "run_m", "swath_m", css_class="beside"), "pans_g", "pan_area_m2")

    def first(self, place: Place, chosen: list[str]) -> dict:
        return {"run_m": 10, "swath_m": 2}


class SprayerSum(SumSheet):
    do = sums.sprayer
    caught_ml = FiguresField(
        label="Caught under each nozzle, ml", of=Range("the catch of a nozzle", "ml", 0, 50_000, 1),
        help_text="From left to right, one figure each: 410, 405, 398",
    )  # fmt: skip
    seconds = QuantityField(label="Caught for", unit="s", low=1, high=600)
    spacing_m = QuantityField(label="Nozzles apart", unit="m", low=0.05, high=5)
    run_m = QuantityField(label="Paced out", unit="m", low=1, high=1000)
    run_seconds = QuantityField(label="Driven in", unit="s", low=1, high=3600)
    wanted_l_ha = QuantityField(label="Wanted", unit="l/ha", low=10, high=20_000, required=False)
    layout = (
        "caught_ml",
        Div("seconds", "spacing_m", css_class="beside"),
        Div("run_m", "run_seconds", "wanted_l_ha", css_class="beside"),
    )

    def first(self, place: Place, chosen: list[str]) -> dict:
        return {"seconds": 30, "spacing_m": "0.5", "run_m": 50}


class SoilSum(SumSheet):
    do = sums.soil
    element = forms.ChoiceField(label="Nutrient", choices=list(NUTRIENTS.items()))
    use_kg_ha = QuantityField(
        label="Grass takes up in a year", unit="kg/ha", low=0, high=500,
        help_text="As the element. For 1 kg of nitrogen about 0.5 kg of potassium, 0.125 kg of phosphorus.",
    )  # fmt: skip
    soil_test_ppm = QuantityField(label="The soil test says", unit="ppm", low=0, high=20_000)
    extractant = forms.ChoiceField(label="Extracted with", choices=list(EXTRACTANTS.items()))
    depth_mm = QuantityField(label="Depth of the sample", unit="mm", low=20, high=300)
    bulk_density_kg_m3 = QuantityField(label="Bulk density of the soil", unit="kg/m³", low=800, high=2000)
    layout = (
        "element", "use_kg_ha", Div("soil_test_ppm", "extractant", css_class="beside"),
        Div("depth_mm", "bulk_density_kg_m3", css_class="beside"),
    )  # fmt: skip

    def first(self, place: Place, chosen: list[str]) -> dict:
        depth, density = (place.settings[f"soil.{key}"] for key in ("sample_depth_mm", "bulk_density_kg_m3"))
        return {"extractant": MEHLICH_3, "depth_mm": f"{depth:g}", "bulk_density_kg_m3": f"{density:g}"}


class ClippingsSum(SumSheet):
    do = sums.clippings
    clippings_ml_m2 = QuantityField(label="Clippings", unit="ml/m²", low=0.1, high=2000)
    leaf_n_percent = QuantityField(label="Nitrogen in the leaf", unit="% of dry matter", low=0.5, high=8)
    layout = (Div("clippings_ml_m2", "leaf_n_percent", css_class="beside"),)

    def first(self, place: Place, chosen: list[str]) -> dict:
        return {"leaf_n_percent": 4}
