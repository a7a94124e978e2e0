"""Lines of product in an entry: which, how much, and how the amount was said."""

from collections.abc import Iterable, Mapping
from decimal import Decimal

from django import forms
from django.forms import BaseFormSet, formset_factory

from greens import units
from greens.forms.sheet import QuantityField, Sheet
from greens.models import Club, Entry, Label
from greens.queries import store
from growin.agronomy import amounts
from growin.agronomy.impossible import ImpossibleValue
from growin.queries.amounts import labels_offered

MOST_LINES = 8
#: Ways to say an amount, the usual one first, by what the work takes.
FOR_FEEDS = (amounts.IN_ALL, amounts.PER_M2, amounts.PER_HA)
FOR_SANDS = (amounts.DEPTH_MM, amounts.BULK_PER_M2, amounts.IN_ALL)
FOR_SEEDS = (amounts.PER_M2, amounts.IN_ALL)
WAYS_FOR = {"sand": FOR_SANDS, "seed": FOR_SEEDS}
#: What is measured by each way, of a product in g and of one in ml, as :mod:`greens.units` knows it.
MEASURED = {
    amounts.IN_ALL: ("kg", "litres"),
    amounts.PER_M2: ("g/m²", "ml/m²"),
    amounts.BULK_PER_M2: ("kg/m²", "l/m²"),
    amounts.PER_HA: ("kg on each ha", "l on each ha"),
    amounts.DEPTH_MM: ("mm of sand", "mm of sand"),
}
#: Decimals kept of what was typed in another unit: far under the gram that is stored.
PLACES = 6


class LabelSelect(forms.Select):
    """Each product carries what the page needs to show the other amount beside the one typed."""

    def create_option(self, name, value, *args, **kwargs):
        option = super().create_option(name, value, *args, **kwargs)
        label = getattr(value, "instance", None)
        if label is not None:
            option["attrs"] |= {
                "data-unit": label.unit,
                "data-n-g": f"{label.contents.get('N', 0):f}",
                "data-bulk": f"{label.bulk_density_t_m3 or ''}",
            }
        return option


class LabelField(forms.ModelChoiceField):
    widget = LabelSelect

    def label_from_instance(self, label: Label) -> str:
        words = f" ({label.short_words})" if label.short_words else ""
        return f"{label.product}{words}"


class ProductLine(Sheet):
    """One product; an empty line is left away."""

    optional_goes_without_saying = True

    label = LabelField(label="Product", queryset=Label.objects.none(), required=False, empty_label="none")
    amount = QuantityField(label="Amount", low=0, decimal_places=3, required=False)
    way = forms.ChoiceField(label="In", required=False)

    def __init__(self, *args, labels, choices, takes_product: str, **kwargs):
        """``choices`` are those of ``labels``, read once for all lines."""
        super().__init__(*args, **kwargs)
        self.fields["label"].queryset = labels
        self.fields["label"].widget.choices = choices
        ways = WAYS_FOR.get(takes_product, FOR_FEEDS)
        self.fields["way"].choices = [(way, words_of(way, takes_product)) for way in ways]
        self.helper.layout.fields = ["label", "amount", "way"]

    def clean(self):
        said = super().clean()
        label, amount = said.get("label"), said.get("amount")
        if label and amount is None and "amount" not in self.errors:
            self.add_error("amount", "Say how much.")
        if amount is not None and not label and "label" not in self.errors:
            self.add_error("label", "Say of which product.")
        return said

    def counted(self, area_dm2: int) -> tuple[Label, int] | None:
        """Label and whole g or ml; none for an empty line, or with a sentence beside the amount."""
        label, amount = self.cleaned_data.get("label"), self.cleaned_data.get("amount")
        if not label or amount is None:
            return None
        way = self.cleaned_data.get("way") or amounts.IN_ALL
        try:
            stored = units.stored(amount, MEASURED[way][label.is_liquid], PLACES)
            return label, amounts.whole_amount(stored, way, area_dm2, label.bulk_density_t_m3)
        except ImpossibleValue as refused:
            self.add_error("amount", str(refused))
            return None


class ProductLines(BaseFormSet):
    def counted(self, area_dm2: int) -> list[tuple[Label, int]]:
        pairs = [line.counted(area_dm2) for line in self.forms]
        return [pair for pair in pairs if pair]

    @property
    def has_wrongs(self) -> bool:
        return any(line.errors for line in self.forms)


def words_of(way: str, takes_product: str) -> str:
    """The unit of an amount while it is not known yet whether the product is counted in g or ml."""
    solid, liquid = (read_as(way, is_liquid) for is_liquid in (False, True))
    if takes_product in WAYS_FOR:
        return solid
    whole = " in all" if way == amounts.IN_ALL else ""
    return f"{solid.removesuffix(whole)} or {liquid}"


def read_as(way: str, is_liquid: bool) -> str:
    """The words of a way of giving an amount, in the units the club reads."""
    measured = MEASURED[way][is_liquid]
    if units.quantity(measured) is None:
        return amounts.WAYS[way][is_liquid]
    return units.sign(measured) + (" in all" if way == amounts.IN_ALL else "")


def product_lines(
    club: Club, takes_product: str, *posted, initial: list[Mapping] = (), also: tuple[int, ...] = ()
) -> ProductLines:
    """At least two lines, so that a tank mix fits without JavaScript; ``also`` are labels named already."""
    labels = store.labels_for(club, takes_product, also) if any(posted) else Label.objects.none()
    extra = max(2 - len(initial), 1)
    lines = formset_factory(
        ProductLine, ProductLines, extra=extra, max_num=MOST_LINES, absolute_max=MOST_LINES, validate_max=True
    )
    choices = choices_of(labels_offered(club, takes_product, also))
    kwargs = {"labels": labels, "choices": choices, "takes_product": takes_product}
    return lines(*posted, prefix="products", initial=list(initial), form_kwargs=kwargs)


def choices_of(labels: Iterable[Label]) -> list[tuple]:
    """No product, then each of these."""
    none = LabelField(queryset=Label.objects.none(), required=False, empty_label="none").choices
    return [*none, *map(none.choice, labels)]


def as_typed(entry: Entry) -> list[dict]:
    """The product lines of an entry as first values: kg or litres in all."""
    return [
        {"label": row.label_id, "amount": typed(row.amount, row.label), "way": amounts.IN_ALL}
        for row in entry.products.all()
    ]


def typed(amount: int, label: Label) -> str:
    """Whole g or ml as the club types them, to the last digit: 1234567 is "1234.567" kg."""
    whole = f"{Decimal(amount).scaleb(-3).normalize():f}"
    return units.written(whole, MEASURED[amounts.IN_ALL][label.is_liquid], 3)
