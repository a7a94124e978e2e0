"""Products of a club and their labels."""

from django.db.models import QuerySet

from greens.models import Club, Label, Product


def products(club: Club) -> QuerySet[Product]:
    """Everything in the store, with labels and their lines, in three queries."""
    return club.products.prefetch_related("labels__lines")


def product(club: Club, pk: int) -> Product:
    return products(club).get(pk=pk)


def labels_in_use(club: Club, *kinds: str) -> QuerySet[Label]:
    """The newest label of each product of these kinds that is still used (all kinds if none is named)."""
    rows = Label.objects.filter(product__club=club, product__retired_on=None)
    rows = rows.filter(product__kind__in=kinds) if kinds else rows
    newest = dict(rows.order_by("product_id", "revision").values_list("product_id", "pk"))
    return Label.objects.filter(pk__in=newest.values()).select_related("product").prefetch_related("lines")
