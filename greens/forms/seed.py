"""The seed mix."""

from crispy_forms.layout import Div
from django import forms

from greens.forms.sheet import QuantityField, Sheet
from growin.agronomy.plain_words import amount

FEWEST, SPARE, MOST = 4, 2, 12
PARTS = ("variety", "share_percent", "purity_percent", "germination_percent")
ROUNDING_PERCENT = 0.15  # certificates print thirds as 33.3


def percent(label: str) -> QuantityField:
    return QuantityField(label=label, unit="%", low=0, high=100, decimal_places=2, required=False)


class SeedMix(Sheet):
    """As many lines as the mix has, and some to spare."""

    def __init__(self, *args, kept: int = 0, **kwargs):
        super().__init__(*args, **kwargs)
        self.count = min(MOST, max(FEWEST, kept + SPARE))
        for number in range(1, self.count + 1):
            self.add_line(number)
        self.helper.layout.fields = [
            Div(*(f"{part}_{number}" for part in PARTS), css_class="beside")
            for number in range(1, self.count + 1)
        ]

    def add_line(self, number: int) -> None:
        self.fields[f"variety_{number}"] = forms.CharField(
            label=f"Line {number}: species and cultivar", max_length=80, required=False
        )
        self.fields[f"share_percent_{number}"] = percent("Share by weight")
        self.fields[f"purity_percent_{number}"] = percent("Purity")
        self.fields[f"germination_percent_{number}"] = percent("Germination")

    def clean(self):
        found = super().clean()
        if not self.errors:
            self.check_halves()
            self.check_total()
        return found

    def check_halves(self) -> None:
        for number in range(1, self.count + 1):
            line = self.line(number)
            if line["variety"] and line["share_percent"] is None:
                self.add_error(f"share_percent_{number}", f"How much of the mix is {line['variety']}?")
            if not line["variety"] and any(line[part] is not None for part in PARTS[1:]):
                self.add_error(f"variety_{number}", "Which grass do these figures belong to?")

    def check_total(self) -> None:
        lines = self.lines()
        together = sum(line["share_percent"] or 0 for line in lines)
        if not self.errors and lines and abs(together - 100) > ROUNDING_PERCENT:
            self.add_error(
                None, f"The shares add up to {amount(float(together), '%')}; they should add up to 100 %."
            )

    def line(self, number: int) -> dict:
        return {part: self.cleaned_data.get(f"{part}_{number}") for part in PARTS}

    def lines(self) -> list[dict]:
        """The lines that name a grass."""
        every = (self.line(number) for number in range(1, self.count + 1))
        return [line for line in every if line["variety"]]


def as_initial(rows) -> dict:
    numbered = enumerate(rows, start=1)
    return {f"{part}_{number}": getattr(row, part) for number, row in numbered for part in PARTS}
