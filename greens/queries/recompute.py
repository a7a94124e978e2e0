"""Entries that would read otherwise today, because a label or an area was put right since."""

from django.db.models import Q, QuerySet

from greens.models import Entry, Green, Product
from greens.queries import diary, store
from growin.agronomy.works import WITH_PRODUCT


def on_older_labels(product: Product) -> QuerySet[Entry]:
    return diary.with_lines(store.entries_on_older_labels(product)).select_related("club")


def on_other_areas(green: Green) -> QuerySet[Entry]:
    """Entries with a product that were kept with another area of the green than it has now."""
    area_dm2 = green.area_dm2 or 0
    other = Q(lines__area_dm2__lt=area_dm2) | Q(lines__area_dm2__gt=area_dm2)
    rows = Entry.objects.filter(
        other, lines__green=green, lines__kind__in=WITH_PRODUCT, taken_back_at=None, products__isnull=False
    )
    return diary.with_lines(rows.distinct()).select_related("club")
