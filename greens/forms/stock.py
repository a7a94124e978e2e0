"""A delivery, or a count of what is in the shed."""

from collections.abc import Mapping
from datetime import timedelta

from django import forms

from greens.choices import StockKind
from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.models import Product
from greens.validators.numbers import whole_number
from growin.agronomy import amounts

#: No shed holds more, kg or litres (our judgement).
MOST = 500_000
LONGEST_AGO = timedelta(days=5 * 366)


class StockSheet(Sheet):
    kind = forms.ChoiceField(label="What happened", choices=StockKind.choices, widget=forms.RadioSelect)
    on = DayField(label="Day")
    lot = forms.CharField(label="Lot number", max_length=40, required=False)
    use_by = DayField(label="Use by", required=False)

    def __init__(self, *args, product: Product, **kwargs):
        today = product.club.local_today()
        super().__init__(*args, initial={"kind": StockKind.DELIVERED, "on": today}, **kwargs)
        self.fields["on"].latest, self.fields["on"].earliest = today, today - LONGEST_AGO
        self.fields["amount"] = QuantityField(
            label="How much", unit="litres" if product.newest_label.is_liquid else "kg", low=0,
            high=MOST, decimal_places=3,
            help_text="In all: what came, or what is there at this moment.",
        )  # fmt: skip
        self.helper.layout.fields = ["kind", "on", "amount", "lot", "use_by"]

    def values(self) -> dict:
        """As the action takes them: whole g or ml."""
        said = dict(self.cleaned_data)
        said["amount"] = amounts.whole_amount(said["amount"], amounts.IN_ALL, 0)
        return said


def asked_line(sent: Mapping) -> int | None:
    """The number of a delivery or count; None for anything that is none."""
    return whole_number(sent.get("line", ""))
