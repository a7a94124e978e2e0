"""What greens were given, element by element, feed by feed."""

from collections.abc import Iterable, Sequence
from datetime import date

from django.db.models import QuerySet, Sum

from greens.models import EntryNutrient, Green, LabelLine
from greens.queries.spans import Span, by_span
from growin.agronomy.label import nitrogen_release
from growin.agronomy.nutrition import MG_M2_PER_KG_HA
from growin.agronomy.season_nutrition import Given
from growin.agronomy.works import WITH_PRODUCT


def ledger(*elements: str) -> QuerySet[EntryNutrient]:
    """What entries that count brought of these elements."""
    return EntryNutrient.objects.filter(element__in=elements, product__entry__taken_back_at=None)


def given(
    greens: Iterable[Green], element: str, first: date, last: date, release_weeks: float
) -> dict[int, list[Given]]:
    """The feeds of each green in a span of days, oldest first, by the green's id; two queries.

    ``release_weeks`` counts for slow nitrogen whose label declares none.
    """
    places = list(greens)
    rows = ledger(element).filter(
        product__entry__lines__green__in=places,
        product__entry__lines__kind__in=WITH_PRODUCT,
        product__entry__lines__on__range=(first, last),
    )
    said = rows.order_by("product__entry__lines__on", "product__entry", "pk").values_list(
        "product__entry__lines__green", "product__entry__lines__on", "mg_m2", "product__label",
        "product__label__release_weeks",
    )  # fmt: skip
    known = list(said)
    slow = slow_shares({label for *_, label, _ in known}) if element == "N" else {}
    found: dict[int, list[Given]] = {}
    for green, on, mg_m2, label, weeks in known:
        kg_ha, share = mg_m2 / MG_M2_PER_KG_HA, slow.get(label, 0.0)
        one = Given(on, kg_ha, kg_ha * share, (weeks or release_weeks) if share else 0)
        found.setdefault(green, []).append(one)
    return found


def slow_shares(labels: Iterable[int]) -> dict[int, float]:
    """The share of the nitrogen of each label that is slow, where some is; one query."""
    printed: dict[int, dict] = {}
    for line in LabelLine.objects.filter(label__in=labels, part__startswith="N_"):
        printed.setdefault(line.label_id, {})[line.part] = line.percent
    released = {label: nitrogen_release(lines) for label, lines in printed.items()}
    return {
        label: float(one.slow_percent / (one.slow_percent + one.quick_percent))
        for label, one in released.items()
        if one.slow_percent
    }


def on_green(green: Green, elements: Iterable[str], first: date, last: date) -> QuerySet[EntryNutrient]:
    """What a green was given of some elements in a span of days, both included."""
    return ledger(*elements).filter(
        product__entry__lines__green=green,
        product__entry__lines__kind__in=WITH_PRODUCT,
        product__entry__lines__on__range=(first, last),
    )


def sum_mg_m2(green: Green, element: str, first: date, last: date, but_entry: int | None = None) -> int:
    """The sum of one element; one query."""
    return sums_mg_m2(green, (element,), first, last, but_entry).get(element, 0)


def sums_mg_m2(
    green: Green, elements: Iterable[str], first: date, last: date, but_entry: int | None = None
) -> dict[str, int]:
    """The same of several elements, by element as far as any was given; one query."""
    rows = on_green(green, elements, first, last).exclude(product__entry=but_entry)
    return dict(rows.order_by().values_list("element").annotate(total=Sum("mg_m2")))


def sums_of_spans_mg_m2(green: Green, element: str, spans: Sequence[Span]) -> list[float]:
    """What a green was given of an element in each of some spans; one query."""
    first, last = min(first for first, _ in spans), max(last for _, last in spans)
    rows = on_green(green, (element,), first, last)
    return by_span(rows, "product__entry__on", spans, lambda those: Sum("mg_m2", filter=those))
