"""Boxes into which people paste a list."""

from django import forms

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
    """Single figures such as the level readings of a layer."""

    def __init__(self, *, of: pasted.Range, **kwargs):
        self.of = of
        super().__init__(**kwargs)

    def read(self, text: str) -> list:
        return pasted.figures(text, self.of)

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
