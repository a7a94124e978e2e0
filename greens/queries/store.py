"""Products of a club and their labels."""

from datetime import date

from django.db.models import Case, Exists, OuterRef, Q, QuerySet, When

from greens.choices import AmountUnit, ProductKind
from greens.models import Club, Entry, EntryProduct, Label, Product
from growin.agronomy.works import WITH_PRODUCT

#: What each kind of work may carry: feeds and wetting agents share a tank, sprays stand in a spray record.
KINDS_FOR: dict[str, tuple[str, ...]] = {
    "feed": (ProductKind.GRANULAR, ProductKind.LIQUID, ProductKind.WETTING_AGENT, ProductKind.OTHER),
    "sand": (ProductKind.SAND, ProductKind.OTHER, ProductKind.SEED, ProductKind.GRANULAR),
    "seed": (ProductKind.SEED, ProductKind.GRANULAR, ProductKind.OTHER),
    "wetting_agent": (ProductKind.WETTING_AGENT, ProductKind.LIQUID, ProductKind.OTHER),
    "spray": (ProductKind.SPRAY, ProductKind.LIQUID, ProductKind.WETTING_AGENT, ProductKind.OTHER),
}


COUNTED_IN_ML = {ProductKind.LIQUID, ProductKind.WETTING_AGENT, ProductKind.SPRAY}


def usual_unit(kind: str) -> AmountUnit:
    """What most labels of a kind of product count in."""
    return AmountUnit.MILLILITRES if kind in COUNTED_IN_ML else AmountUnit.GRAMS


def products(club: Club) -> QuerySet[Product]:
    """Everything in the store, with labels and their lines, in three queries."""
    return club.products.prefetch_related("labels__lines", "labels__by")


def product(club: Club, pk: int) -> Product:
    return products(club).get(pk=pk)


def name_is_taken(club: Club, name: str, but: Product | None = None) -> bool:
    return club.products.filter(name__iexact=name).exclude(pk=but.pk if but else None).exists()


def labels_in_use(club: Club, *kinds: str) -> QuerySet[Label]:
    """The newest label of each product of these kinds that is still used (all kinds if none is named)."""
    rows = Label.objects.filter(product__club=club, product__retired_on=None)
    rows = rows.filter(product__kind__in=kinds) if kinds else rows
    newest = dict(rows.order_by("product_id", "revision").values_list("product_id", "pk"))
    return with_parts(Label.objects.filter(pk__in=newest.values()))


def with_parts(labels: QuerySet[Label]) -> QuerySet[Label]:
    return labels.select_related("product").prefetch_related("lines").order_by("product__name", "-revision")


def labels_for(club: Club, takes_product: str, also: tuple[int, ...] = ()) -> QuerySet[Label]:
    """Labels that this kind of work may name, and those (by id, of the club) that it names already.

    The kind of product that the work is about stands first: sand before the feed mixed into it.
    """
    kinds = KINDS_FOR[takes_product]
    in_use = labels_in_use(club, *kinds).values("pk")
    named = with_parts(Label.objects.filter(Q(pk__in=in_use) | Q(pk__in=also, product__club=club)))
    first = Case(
        *(When(product__kind=kind, then=place) for place, kind in enumerate(kinds)), default=len(kinds)
    )
    return named.order_by(first, "product__name", "-revision")


def entries_on_older_labels(product: Product) -> QuerySet[Entry]:
    """Entries that count and still stand on a label which a newer one has replaced."""
    older = list(product.labels.order_by("-revision").values_list("pk", flat=True))[1:]
    return product.club.entries.filter(products__label__in=older, taken_back_at=None).distinct()


def uses(product: Product, first: date, last: date) -> int:
    """How many entries of a span of days that count name the product."""
    named = EntryProduct.objects.filter(entry=OuterRef("pk"), label__product=product)
    rows = product.club.entries.filter(kind__in=WITH_PRODUCT, on__range=(first, last), taken_back_at=None)
    return rows.filter(Exists(named)).count()
