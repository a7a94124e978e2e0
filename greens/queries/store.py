"""Products of a club and their labels."""

from django.db.models import Case, Q, QuerySet, When

from greens.choices import AmountUnit, ProductKind
from greens.models import Club, Entry, EntryProduct, Label, Product

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
    newest = product.labels.order_by("-revision").first()
    older = EntryProduct.objects.filter(label__product=product).exclude(label=newest)
    return product.club.entries.filter(pk__in=older.values("entry"), taken_back_at=None)


def uses(product: Product) -> int:
    """How many entries that count name the product."""
    rows = product.club.entries.filter(products__label__product=product, taken_back_at=None)
    return rows.distinct().count()
