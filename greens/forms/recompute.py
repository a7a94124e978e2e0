"""Which past entries shall be worked out again: asked, never done by itself."""

from django import forms

from greens.forms.sheet import Sheet
from growin.agronomy.plain_words import dated


class EntryChoice(forms.ModelMultipleChoiceField):
    def label_from_instance(self, entry) -> str:
        greens = ", ".join(line.words for line in entry.lines.all())
        products = "; ".join(
            f"{product.label.product} {product.amount_words}" for product in entry.products.all()
        )
        nutrients = " · ".join(nutrient.words for nutrient in entry.nutrients)
        return f"{dated(entry.on)}, {greens}: {products}" + (f" ({nutrients})" if nutrients else "")


class Recompute(Sheet):
    entries = EntryChoice(
        label="Entries to work out again",
        queryset=None,
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Tick the entries that were kept with wrong figures, or leave them all."},
    )

    def __init__(self, *args, entries, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["entries"].queryset = entries
