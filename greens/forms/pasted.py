"""Boxes into which people paste a list."""

from dataclasses import replace
from decimal import Decimal

from django import forms

from greens import units
from greens.validators import pasted

LONGEST = 8_000


class PastedField(forms.CharField):
    """A list in one box; ``read`` makes rows of the text and may refuse it with a sentence."""

    def __init__(self, *, rows: int = 3, **kwargs):
        attrs = {"rows": rows, "autocomplete": "off", "spellcheck": "false"}
        kwargs.setdefault("widget", forms.Textarea(attrs=attrs))
        super().__init__(max_length=LONGEST, **kwargs)

    def clean(self, value):
        text = super().clean(value)
        try:
            return self.read(text)
        except pasted.NotReadable as refusal:
            raise forms.ValidationError(str(refusal)) from None

    def read(self, text: str) -> list:
        raise NotImplementedError

    def written(self, row) -> str:
        return f"{row:g}" if isinstance(row, int | float) else "  ".join(str(part) for part in row)

    def prepare_value(self, value):
        """Rows as the text they came from."""
        return "\n".join(self.written(row) for row in value) if isinstance(value, list | tuple) else value


class FiguresField(PastedField):
    """Single figures such as the level readings of a layer, ``of`` a range in the stored unit."""

    def __init__(self, *, of: pasted.Range, **kwargs):
        self.of = of
        super().__init__(**kwargs)

    def get_bound_field(self, form, field_name):
        self.label = units.label(self.label, self.of.unit)
        return super().get_bound_field(form, field_name)

    def in_club_units(self, value):
        if not isinstance(value, list | tuple):
            return value
        return [float(units.written(one, self.of.unit, self.of.decimals)) for one in value]

    def read(self, text: str) -> list:
        if units.quantity(self.of.unit) is None:
            return pasted.figures(text, self.of)
        return [self.stored(typed) for typed in pasted.figures(text, self.as_typed())]

    def as_typed(self) -> pasted.Range:
        """The range of a figure in the unit that the club types."""
        low, high = units.limits(self.of.low, self.of.high, self.of.unit)
        return replace(self.of, unit=units.sign(self.of.unit), low=low, high=high, decimals=units.MOST_PLACES)

    def stored(self, typed: float) -> float:
        return pasted.whole_if_so(float(units.stored(Decimal(str(typed)), self.of.unit, self.of.decimals)))

    def prepare_value(self, value):
        if isinstance(value, list | tuple):
            return ", ".join(self.written(row) for row in value)
        return value


class PairsField(PastedField):
    """Two figures a line, such as sieve and per cent passing."""

    def __init__(self, *, first: pasted.Range, second: pasted.Range, **kwargs):
        self.first, self.second = first, second
        super().__init__(**kwargs)

    def read(self, text: str) -> list:
        return pasted.pairs(text, self.first, self.second)


class SharesField(PastedField):
    """A name and its per cent a line."""

    def read(self, text: str) -> list:
        return pasted.shares(text)


class YesNoField(forms.TypedChoiceField):
    """Yes, no, or not known."""

    def __init__(self, **kwargs):
        choices = [("", "not known"), ("yes", "yes"), ("no", "no")]
        super().__init__(
            choices=choices,
            coerce=lambda answer: answer == "yes",
            empty_value=None,
            required=False,
            widget=forms.RadioSelect,
            **kwargs,
        )

    def prepare_value(self, value):
        return {True: "yes", False: "no", None: ""}.get(value, value)
