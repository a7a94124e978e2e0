"""Spans of days, both ends included."""

from datetime import date

from django.db.models import Q

Span = tuple[date, date]
ALWAYS: Span = (date.min, date.max)


def within(field: str, spans: list[Span]) -> Q:
    """Rows whose day lies in one of these spans."""
    return Q(*[(f"{field}__range", one) for one in spans], _connector=Q.OR)
