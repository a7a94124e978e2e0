"""Words of the page: days as people say them, figures with their unit, states with their shape."""

from datetime import date
from uuid import UUID, uuid4

from django import template
from django.conf import settings
from django.utils import timezone
from django.utils.html import format_html

from greens import units
from growin.agronomy import plain_words

register = template.Library()


@register.filter
def day(value: date | None, beside: date | None = None) -> str:
    """Thu 16 April; the year is said when it is not that of ``beside``, or of today."""
    today = settings.FIXED_TODAY or timezone.localdate()
    return plain_words.day(value, beside or today) if value else ""


@register.filter
def long_day(value: date | None) -> str:
    """Thu 16 April 2026."""
    return f"{plain_words.day(value)} {value.year}" if value else ""


@register.filter
def figure(value, places: int = 2) -> str:
    """A figure without trailing noughts: 4.50 → 4.5, 3.00 → 3."""
    if value is None or value == "":
        return ""
    text = f"{float(value):,.{int(places)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


@register.filter
def latitude(degrees) -> str:
    """54.5 → "54.5° north", −44.5 → "44.5° south"."""
    return f"{figure(abs(degrees), 3)}° {'south' if degrees < 0 else 'north'}"


@register.filter
def unit(shown: str, stored_unit: str) -> str:
    """A stored figure with its unit as the club reads it: {{ height_mm|figure|unit:"mm" }}."""
    return "" if shown in (None, "") else units.amount(shown, stored_unit)


@register.filter
def in_unit(shown: str, stored_unit: str) -> str:
    """The figure alone, where the unit stands in the head of a column."""
    return "" if shown in (None, "") else units.figure(shown, stored_unit)


@register.filter
def listed(figures: list, stored_unit: str) -> str:
    """Single figures in a row, as the club reads them; the unit stands beside them."""
    return ", ".join(units.figure(one, stored_unit) for one in figures or ())


@register.filter
def unit_sign(stored_unit: str) -> str:
    """A unit's sign as the club reads it."""
    return units.sign(stored_unit)


@register.filter(is_safe=True)
def said(sentence) -> str:
    """A sentence of ours with its figures in the club's units; never for what people wrote."""
    return units.said(str(sentence)) if sentence else ""


@register.filter
def trade_words(words: str) -> str:
    """How the surface was established, as the club says it."""
    return units.in_trade_words(words)


@register.simple_tag
def units_read() -> str:
    """The units in which the page speaks, for its script."""
    return units.active()


@register.simple_tag
def typed_in() -> str:
    """A form's word for the units it was opened in, so that a switch meanwhile turns no figure wrong."""
    return format_html('<input type="hidden" name="{}" value="{}">', units.TYPED_IN, units.active())


@register.simple_tag
def new_id() -> UUID:
    """An id of a form's own, so that what is sent twice is kept once."""
    return uuid4()


@register.simple_tag
def state(word: str, large: bool = False) -> str:
    """A state as a word and a shape."""
    size = " state--large" if large else ""
    return format_html(
        '<span class="state state--{}{}">{}</span>', word.replace(" ", "-"), size, word.capitalize()
    )


@register.filter
def get(mapping: dict, key):
    """A value of a mapping by a key that the template knows."""
    return mapping.get(key)


@register.simple_tag(takes_context=True)
def query_with(context, **changes) -> str:
    """The address's query with some parts changed; None takes one out."""
    query = context["request"].GET.copy()
    for name, value in changes.items():
        query.pop(name, None)
        if value is not None:
            query[name] = value
    return f"?{query.urlencode()}"
