"""Entries that would read otherwise today, because a label or an area was put right since."""

from django.db.models import QuerySet

from greens.models import Entry, Green, Product
from greens.queries import diary, store
from growin.agronomy.works import WITH_PRODUCT


def on_older_labels(product: Product) -> QuerySet[Entry]:
    return diary.with_lines(store.entries_on_older_labels(product)).select_related("club")


def on_other_areas(green: Green) -> QuerySet[Entry]:
    """Entries with a product that were kept with another area of the green than it has now."""
    lines = green.entry_lines.filter(kind__in=WITH_PRODUCT).exclude(area_dm2=green.area_dm2).values("entry")
    rows = diary.of(green.club).filter(pk__in=lines, products__isnull=False).distinct()
    return diary.with_lines(rows).select_related("club")
