"""Words of the page: days as people say them, figures with their unit, states with their shape."""

from datetime import date

from django import template
from django.utils.html import format_html

from growin.agronomy import plain_words

register = template.Library()


@register.filter
def day(value: date | None) -> str:
    """Thu 16 April; the year is said when it is not this one's."""
    return plain_words.day(value) if value else ""


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
