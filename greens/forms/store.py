"""A product of the store, and its label as printed; only what its kind has on a label is asked."""

from crispy_forms.layout import Div, Fieldset
from django import forms

from greens.choices import AmountUnit, LabelBasis, MaterialKind, ProductKind
from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.queries import record
from greens.queries.store import usual_unit
from growin.agronomy.label import LINES, NITROGEN_FORMS

NITROGEN = ("N_total", *NITROGEN_FORMS)
OXIDES = ("P2O5", "K2O", "CaO", "MgO", "SO3")
ELEMENTS = ("P", "K", "Ca", "Mg", "S")
TRACES = tuple(code for code in LINES if code not in {*NITROGEN, *OXIDES, *ELEMENTS})
PARTS = {
    "Nitrogen": NITROGEN,
    "Oxides, where the label prints oxides": OXIDES,
    "Elements, where the label prints these instead": ELEMENTS,
    "Iron and traces": TRACES,
}
AS_LIQUID = ("unit", "basis", "density_kg_l")
#: What the label of each kind may say, beside the parts.
LABEL_FIELDS: dict[str, tuple[str, ...]] = {
    ProductKind.GRANULAR: ("release_weeks",),
    ProductKind.LIQUID: AS_LIQUID,
    ProductKind.SAND: ("bulk_density_t_m3",),
    ProductKind.SEED: (),
    ProductKind.WETTING_AGENT: ("unit",),
    ProductKind.SPRAY: ("unit",),
    ProductKind.OTHER: AS_LIQUID,
}
WITH_PARTS = {ProductKind.GRANULAR, ProductKind.LIQUID, ProductKind.OTHER}


def label_fields() -> dict[str, forms.Field]:
    """Fresh fields of a label, beside its parts."""
    return {
        "unit": forms.ChoiceField(label="Counted in", choices=AmountUnit.choices, widget=forms.RadioSelect),
        "basis": forms.ChoiceField(
            label="The label's per cent are",
            choices=LabelBasis.choices,
            widget=forms.RadioSelect,
            help_text="Only liquids are labelled w/v; a label that does not say so means w/w.",
        ),
        "density_kg_l": QuantityField(
            label="Density", unit="kg/l", low=0.7, high=3, decimal_places=3, required=False
        ),
        "bulk_density_t_m3": QuantityField(
            label="Bulk density, dry and loose",
            unit="t/m³",
            low=0.5,
            high=2.65,
            help_text="From the laboratory sheet; 1.6 where nothing is known.",
        ),
        "release_weeks": QuantityField(
            label="Slow release over", unit="weeks", low=1, high=104, decimal_places=0, required=False
        ),
    }


class LabelSheet(Sheet):
    """A label as printed: ``kind`` says what it may hold, ``latest`` is the club's today."""

    def __init__(self, *args, kind: str, latest, **kwargs):
        super().__init__(*args, **kwargs)
        self.kind = kind
        offered = label_fields()
        self.fields.update({name: offered[name] for name in LABEL_FIELDS[kind]})
        self.fields["from_day"] = DayField(label="In the store since", latest=latest)
        if kind in WITH_PARTS:
            self.fields.update({code: part_field(code) for code in LINES})
        self.helper.layout.fields = [*self.leading(), *LABEL_FIELDS[kind], "from_day", *self.parts_layout()]

    def leading(self) -> list[str]:
        return []

    @staticmethod
    def first(kind: str, today) -> dict:
        """What most labels of the kind say."""
        return {
            "unit": usual_unit(kind),
            "basis": LabelBasis.BY_WEIGHT,
            "bulk_density_t_m3": "1.6",
            "from_day": today,
        }

    @staticmethod
    def as_it_stands(product, today) -> dict:
        """The newest label, to be changed where the new one differs."""
        label = product.newest_label
        names = ("unit", "basis", "density_kg_l", "bulk_density_t_m3", "release_weeks")
        kept = {name: getattr(label, name) for name in names}
        lines = {code: f"{percent.normalize():f}" for code, percent in label.as_printed.items()}
        return kept | lines | {"from_day": today}

    def parts_layout(self) -> list:
        if self.kind not in WITH_PARTS:
            return []
        return [Fieldset(words, Div(*codes, css_class="beside")) for words, codes in PARTS.items()]

    def clean(self):
        cleaned = super().clean()
        by_weight = cleaned.get("basis") == LabelBasis.BY_WEIGHT
        is_liquid = cleaned.get("unit") == AmountUnit.MILLILITRES
        if is_liquid and by_weight and self.lines() and not cleaned.get("density_kg_l"):
            self.add_error("density_kg_l", "A liquid labelled by weight needs it: what does a litre weigh?")
        return cleaned

    def lines(self) -> dict:
        """Per cent by line code, what was printed only."""
        given = {code: self.cleaned_data.get(code) for code in LINES if code in self.fields}
        return {code: percent for code, percent in given.items() if percent is not None}

    def label(self) -> dict:
        """What the label says beside its parts, for the actions."""
        names = (*LABEL_FIELDS[self.kind], "from_day")
        return {name: self.cleaned_data[name] for name in names}


class NewProduct(LabelSheet):
    """A product with its first label."""

    name = forms.CharField(label="Name on the bag or can", max_length=80)

    def __init__(self, *args, club, kind: str, **kwargs):
        self.own = own_fields(club, kind)
        super().__init__(*args, kind=kind, **kwargs)
        self.fields.update(self.own)

    def leading(self) -> list[str]:
        return ["name", *self.own]

    def product(self) -> dict:
        return {name: self.cleaned_data[name] for name in ("name", *self.own)}


class ChangeProduct(Sheet):
    name = forms.CharField(label="Name on the bag or can", max_length=80)

    def __init__(self, *args, product, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields.update(own_fields(product.club, product.kind))


def own_fields(club, kind: str) -> dict[str, forms.Field]:
    """What belongs to the product itself and only some kinds have."""
    if kind == ProductKind.SPRAY:
        number = forms.CharField(label="Registration number", max_length=40, required=False)
        return {"registration_number": number}
    if kind == ProductKind.SAND:
        sands = record.materials(club).filter(kind__in=[MaterialKind.SAND, MaterialKind.ROOTZONE])
        return {
            "material": forms.ModelChoiceField(
                label="Its laboratory sheet", queryset=sands, required=False, empty_label="none yet"
            )
        }
    return {}


def part_field(code: str) -> QuantityField:
    words = LINES[code].words
    return QuantityField(label=words[0].upper() + words[1:], unit="%", decimal_places=3, required=False)
