"""What every form of the site shares: our drawing, and fields that speak plainly."""

from datetime import date
from decimal import Decimal

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Layout
from django import forms
from django.core.validators import DecimalValidator
from django.forms.models import ModelChoiceIterator
from django.forms.utils import flatatt
from django.utils.html import format_html, format_html_join

from greens import units
from growin.agronomy.plain_words import dated


class Sheet(forms.Form):
    """A form drawn by crispy without its own <form> tag; ``layout`` may group its fields.

    First values are stored figures, shown in the club's units; ``holds_typed`` where they were typed.
    """

    layout: tuple = ()
    holds_typed = False
    required_css_class = "is-required"

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            if isinstance(field, forms.ModelChoiceField):
                field.iterator = ReadOnce
                field.widget.choices = field.choices
        self.helper = FormHelper(self)
        self.helper.form_tag = False
        self.helper.disable_csrf = True
        self.helper.render_unmentioned_fields = True
        if self.layout:
            self.helper.layout = Layout(*self.layout)

    def leave_out(self, name: str) -> None:
        """Ask for one thing less."""
        del self.fields[name]
        fields = self.helper.layout.fields
        self.helper.layout.fields = [one for one in fields if one != name]

    def get_initial_for_field(self, field, field_name):
        value = super().get_initial_for_field(field, field_name)
        return value if self.holds_typed else in_club_units(field, value)

    def add_error(self, field, error):
        """Sentences of ours speak in the club's units."""
        super().add_error(field, units.said(error) if isinstance(error, str) else error)

    def wants_both(self, first: str, last: str, why: str) -> None:
        """Set a sentence beside the second of two fields where only one of them was filled in."""
        said = self.cleaned_data
        if {first, last} <= said.keys() and bool(said[first]) != bool(said[last]):
            self.add_error(last, f"{why}: give both, or neither.")

    def wrongs(self) -> list[tuple[str, str]]:
        """Every sentence that stands in the form, with the words of its field; "" at the head of the form."""
        return [
            (self.fields[name].label or "" if name in self.fields else "", sentence)
            for name, sentences in self.errors.items()
            for sentence in sentences
        ]

    def take(self, errors: dict[str, str]) -> None:
        """Set sentences beside their fields; what has no field stands at the head of the form."""
        for name, sentence in errors.items():
            self.add_error(name if name in self.fields else None, sentence)


class ReadOnce(ModelChoiceIterator):
    """Rows are read once for a form, however often its choices are gone through."""

    def __iter__(self):
        if self.field.empty_label is not None:
            yield "", self.field.empty_label
        yield from map(self.choice, self.queryset)

    def __len__(self):
        return len(self.queryset) + (self.field.empty_label is not None)


def in_club_units(field: forms.Field, value):
    """A stored value as the club reads it; one of no unit as it is."""
    return field.in_club_units(value) if hasattr(field, "in_club_units") else value


class LongSelect(forms.Select):
    """Hundreds of choices drawn at once: a template for each would cost more than the page around them."""

    def render(self, name, value, attrs=None, renderer=None):
        choices = ((key, key == str(value), words) for key, words in self.choices)
        options = format_html_join(
            "",
            '<option value="{}"{}>{}</option>',
            ((key, flatatt({"selected": is_chosen}), words) for key, is_chosen, words in choices),
        )
        marked = self.build_attrs(self.attrs, (attrs or {}) | {"name": name})
        return format_html("<select{}>{}</select>", flatatt(marked), options)


class QuantityField(forms.DecimalField):
    """A figure with its unit beside it, the right keypad, and limits said in words.

    ``unit`` is the stored one, and so are ``low``, ``high`` and the cleaned value, which has
    ``decimal_places``. What is shown, typed and told of a mistake is in the club's units.
    """

    def __init__(self, *, unit: str = "", low=None, high=None, decimal_places: int = 2, **kwargs):
        self.stored_unit, self.low, self.high = unit, low, high
        kwargs.setdefault("widget", forms.TextInput(attrs={"autocomplete": "off"}))
        super().__init__(decimal_places=decimal_places, max_digits=14, **kwargs)

    @property
    def unit(self) -> str:
        """What stands beside the box."""
        return units.sign(self.stored_unit)

    def get_bound_field(self, form, field_name):
        has_point = self.decimal_places or units.quantity(self.stored_unit)
        self.widget.attrs["inputmode"] = "decimal" if has_point else "numeric"
        return super().get_bound_field(form, field_name)

    def in_club_units(self, value):
        return units.written(value, self.stored_unit, self.decimal_places)

    def prepare_value(self, value):
        """What is kept, without the noughts of its column: 4.50 as 4.5."""
        kept = Decimal(str(value)) if isinstance(value, float) else value
        return f"{kept.normalize():f}" if isinstance(kept, Decimal) else kept

    def to_python(self, value):
        text = str(value).strip().replace("−", "-") if value is not None else value
        if text in self.empty_values:
            return None
        try:
            return super().to_python(self.with_point(text))
        except forms.ValidationError:
            raise forms.ValidationError(
                f"'{text[:20]}' is not a number; write it in figures, such as 12.5."
            ) from None

    def clean(self, value):
        """The stored figure; its range is judged as typed, where the mistake would be."""
        typed = self.to_python(value)
        self.validate(typed)
        if typed is None:
            return None
        DecimalValidator(self.max_digits, None)(typed)
        self.check_range(typed)
        kept = units.stored(typed, self.stored_unit, self.decimal_places)
        self.run_validators(kept)
        return kept

    def check_range(self, typed: Decimal) -> None:
        low, high = units.limits(self.low, self.high, self.stored_unit)
        if (low is None or typed >= Decimal(str(low))) and (high is None or typed <= Decimal(str(high))):
            return
        raise forms.ValidationError(f"{typed:f} {self.unit} cannot be right; {self.range_words(low, high)}.")

    def range_words(self, low, high) -> str:
        unit = self.unit
        if low is not None and high is not None:
            return f"it should lie between {low:g} and {high:g} {unit}".strip()
        limit = f"at least {low:g}" if low is not None else f"at most {high:g}"
        return f"it should be {limit} {unit}".strip()

    @staticmethod
    def with_point(text: str) -> str:
        """A comma as the decimal sign is read as one, 12,5 as 12.5."""
        return text.replace(",", ".") if text.count(",") == 1 and "." not in text else text


class DayField(forms.DateField):
    """A day of work: never in the future of the club, never before ``earliest``."""

    def __init__(self, *, latest: date | None = None, earliest: date | None = None, **kwargs):
        self.latest, self.earliest = latest, earliest
        kwargs.setdefault("widget", forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"))
        super().__init__(input_formats=["%Y-%m-%d", "%d/%m/%Y", "%d.%m.%Y"], **kwargs)
        self.error_messages["invalid"] = "This is not a day; write it as 2026-04-16 or 16/04/2026."

    def validate(self, value):
        super().validate(value)
        if value is None:
            return
        if self.latest and value > self.latest:
            raise forms.ValidationError(
                f"{dated(value)} lies in the future; the latest day possible is {dated(self.latest)}."
            )
        if self.earliest and value < self.earliest:
            raise forms.ValidationError(
                f"{dated(value)} lies before {dated(self.earliest)}, the first day possible here."
            )
