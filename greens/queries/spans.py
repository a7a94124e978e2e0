"""Spans of days, both ends included."""

from collections.abc import Callable, Sequence
from datetime import date

from django.db.models import Aggregate, Q, QuerySet

Span = tuple[date, date]
ALWAYS: Span = (date.min, date.max)


def within(field: str, spans: list[Span]) -> Q:
    """Rows whose day lies in one of these spans."""
    return Q(*[(f"{field}__range", one) for one in spans], _connector=Q.OR)


def by_span(rows: QuerySet, field: str, spans: Sequence[Span], told: Callable[[Q], Aggregate]) -> list[float]:
    """One figure for each span, as the database sums or counts it; one query."""
    each = {f"span_{n}": told(within(field, [one])) for n, one in enumerate(spans)}
    found = rows.order_by().aggregate(**each)
    return [found[name] or 0 for name in each]
