"""Layers and drains of a build."""

from crispy_forms.layout import Div, Fieldset
from django import forms

from greens.choices import DrainKind, LayerKind
from greens.forms.pasted import FiguresField, YesNoField
from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.models import Establishment
from greens.queries import record
from greens.validators.pasted import Range

LAYER_FIELDS = ("depths_mm", "material", "levelled_on", "placing")
MADE_OF = {LayerKind.GRAVEL: "gravel", LayerKind.BLINDING: "blinding", LayerKind.ROOTZONE: "rootzone"}
LEVELS = {
    LayerKind.EXCAVATION: "From the finished level down to the floor, at each peg.",
    LayerKind.GRAVEL: "Thickness at each peg.",
    LayerKind.BLINDING: "Thickness at each peg; leave all of it empty where there is none.",
    LayerKind.ROOTZONE: "Firmed thickness at each peg, such as 300, 305, 298.",
}
TRENCH_AND_PIPE = (
    "pipe_mm",
    "fall_percent",
    "trench_width_mm",
    "trench_depth_mm",
    "bedding_mm",
    "is_perforated",
)
DRAIN_FIELDS = {
    DrainKind.MAIN: TRENCH_AND_PIPE,
    DrainKind.LATERAL: ("spacing_m", *TRENCH_AND_PIPE, "reaches_edge"),
}


class LayersForm(Sheet):
    """All four layers on one sheet; a layer left empty is not recorded."""

    optional_goes_without_saying = True

    def __init__(self, *args, establishment: Establishment, today, **kwargs):
        super().__init__(*args, **kwargs)
        materials = record.materials(establishment.green.club)
        for kind in LayerKind:
            self.add_layer(kind, materials.filter(kind=MADE_OF.get(kind, "")))
            day = self.fields[f"{kind}_levelled_on"]
            day.latest, day.earliest = today, establishment.works_started_on
        self.helper.layout.fields = [self.drawn(kind) for kind in LayerKind]

    def add_layer(self, kind: LayerKind, materials) -> None:
        self.fields[f"{kind}_depths_mm"] = FiguresField(
            label="Level readings, mm",
            of=Range("a level reading", "mm", 0, 2500, 1),
            help_text=LEVELS[kind],
            required=False,
        )
        if kind in MADE_OF:
            self.fields[f"{kind}_material"] = forms.ModelChoiceField(
                materials, label="Material", required=False, empty_label="not recorded"
            )
        self.fields[f"{kind}_levelled_on"] = DayField(label="Levelled on", required=False)
        self.fields[f"{kind}_placing"] = forms.CharField(
            label="How it was placed and firmed", max_length=200, required=False
        )

    def drawn(self, kind: LayerKind) -> Fieldset:
        names = [f"{kind}_{name}" for name in LAYER_FIELDS if f"{kind}_{name}" in self.fields]
        return Fieldset(kind.label, names[0], Div(*names[1:-1], css_class="beside"), names[-1], css_id=kind)

    def layers(self) -> dict[LayerKind, dict]:
        return {
            kind: {name: self.cleaned_data.get(f"{kind}_{name}") for name in LAYER_FIELDS}
            for kind in LayerKind
        }


def layers_as_initial(establishment: Establishment) -> dict:
    rows = establishment.layers.all()
    return {f"{row.kind}_{name}": getattr(row, name) for row in rows for name in LAYER_FIELDS}


def millimetres(label: str, high: int, **more) -> QuantityField:
    return QuantityField(label=label, unit="mm", low=0, high=high, decimal_places=0, required=False, **more)


def drain_field(name: str) -> forms.Field:
    return {
        "spacing_m": lambda: QuantityField(
            label="Apart", unit="m", low=0.5, high=50, decimal_places=2, required=False
        ),
        "pipe_mm": lambda: millimetres("Pipe", 500),
        "fall_percent": lambda: QuantityField(
            label="Least continuous fall", unit="%", low=0, high=20, decimal_places=2, required=False,
            help_text="1 in 200 is 0.5 %.",
        ),
        "trench_width_mm": lambda: millimetres("Trench, width", 2000),
        "trench_depth_mm": lambda: millimetres("Trench, depth", 2000),
        "bedding_mm": lambda: millimetres("Gravel under the pipe", 500),
        "is_perforated": lambda: YesNoField(label="Perforated"),
        "reaches_edge": lambda: YesNoField(label="Carried to the edge"),
    }[name]()  # fmt: skip


class DrainsForm(Sheet):
    optional_goes_without_saying = True

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        for kind, names in DRAIN_FIELDS.items():
            self.fields |= {f"{kind}_{name}": drain_field(name) for name in names}
        self.helper.layout.fields = [self.drawn(kind) for kind in DrainKind]

    def drawn(self, kind: DrainKind) -> Fieldset:
        names = [f"{kind}_{name}" for name in DRAIN_FIELDS[kind]]
        figures = [name for name in names if not isinstance(self.fields[name], YesNoField)]
        legend = {DrainKind.MAIN: "Main drain", DrainKind.LATERAL: "Laterals"}[kind]
        return Fieldset(legend, Div(*figures, css_class="beside"), *names[len(figures) :], css_id=kind)

    def drains(self) -> dict[DrainKind, dict]:
        return {
            kind: {name: self.cleaned_data[f"{kind}_{name}"] for name in names}
            for kind, names in DRAIN_FIELDS.items()
        }


def drains_as_initial(establishment: Establishment) -> dict:
    rows = establishment.drains.all()
    return {f"{row.kind}_{name}": getattr(row, name) for row in rows for name in DRAIN_FIELDS[row.kind]}
