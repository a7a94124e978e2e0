"""What every form of the site shares: our drawing, and fields that speak plainly."""

from datetime import date
from decimal import Decimal

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Layout
from django import forms
from django.forms.utils import flatatt
from django.utils.html import format_html, format_html_join


class Sheet(forms.Form):
    """A form drawn by crispy without its own <form> tag; ``layout`` may group its fields."""

    layout: tuple = ()
    required_css_class = "is-required"

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.helper = FormHelper(self)
        self.helper.form_tag = False
        self.helper.disable_csrf = True
        self.helper.render_unmentioned_fields = True
        if self.layout:
            self.helper.layout = Layout(*self.layout)

    def take(self, errors: dict[str, str]) -> None:
        """Set sentences beside their fields; what has no field stands at the head of the form."""
        for name, sentence in errors.items():
            self.add_error(name if name in self.fields else None, sentence)


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

    ``unit`` is shown after the box. Values are cleaned to ``decimal_places``.
    """

    def __init__(self, *, unit: str = "", low=None, high=None, decimal_places: int = 2, **kwargs):
        self.unit, self.low, self.high = unit, low, high
        keypad = "decimal" if decimal_places else "numeric"
        kwargs.setdefault("widget", forms.TextInput(attrs={"inputmode": keypad, "autocomplete": "off"}))
        super().__init__(decimal_places=decimal_places, max_digits=14, **kwargs)

    def prepare_value(self, value):
        """What is kept, without the noughts of its column: 4.50 as 4.5."""
        return f"{value.normalize():f}" if isinstance(value, Decimal) else value

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

    def run_validators(self, value):
        if value is not None:
            self.check_range(value)
        super().run_validators(value)

    def check_range(self, value) -> None:
        low, high = self.low, self.high
        if (low is None or value >= low) and (high is None or value <= high):
            return
        raise forms.ValidationError(f"{value:f} {self.unit} cannot be right; {self.range_words()}.")

    def range_words(self) -> str:
        low, high, unit = self.low, self.high, self.unit
        if low is not None and high is not None:
            return f"it should lie between {low:g} and {high:g} {unit}".strip()
        return f"it should be at least {low:g} {unit}" if low is not None else f"at most {high:g} {unit}"

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
                f"{value:%d %B %Y} lies in the future; the latest day possible is {self.latest:%d %B %Y}."
            )
        if self.earliest and value < self.earliest:
            raise forms.ValidationError(
                f"{value:%d %B %Y} lies before {self.earliest:%d %B %Y}, the first day possible here."
            )
