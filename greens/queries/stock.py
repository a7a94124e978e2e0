"""What stands in the shed: the last count, with what was delivered since and what the diary drew."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import NamedTuple

from django.db.models import Exists, OuterRef, Q, QuerySet

from greens.choices import StockKind
from greens.models import Club, EntryProduct, Product, StockLine
from growin.agronomy import amounts
from growin.agronomy.works import WITH_PRODUCT


class Drawn(NamedTuple):
    """What one entry of the diary used of a product, g or ml."""

    on: date
    logged_at: datetime
    unit: str
    amount: int


YEAR = timedelta(days=365)
COLUMNS = ("entry__on", "entry__logged_at", "label__unit", "amount")


@dataclass(frozen=True)
class Stock:
    """``amount`` in g or ml, below nothing where more was logged than was known to be there; ``line`` is
    the newest delivery or count that it rests on."""

    amount: int
    unit: str
    line: StockLine

    @property
    def is_short(self) -> bool:
        return self.amount < 0

    @property
    def words(self) -> str:
        return f"{self.amount_words} in the shed"

    @property
    def amount_words(self) -> str:
        return amounts.in_words(self.amount, self.unit) if self.amount > 0 else "nothing"


def lines(product: Product, on: date) -> QuerySet[StockLine]:
    """What was noted in the last year, and whatever older the stock of a day still rests on."""
    noted = product.stock_lines.filter(taken_back_at=None)
    rests_on = since_counted(noted, on).order_by().values("pk")
    return noted.filter(Q(on__gt=on - YEAR) | Q(pk__in=rests_on)).select_related("by")


def of_product(product: Product, on: date) -> Stock | None:
    """What is there at the end of a day; None while nothing was ever delivered or counted."""
    return _of(product.club_id, StockLine.objects.filter(product=product), on).get(product.pk)


def of_club(club: Club, on: date) -> dict[int, Stock]:
    """The stock of every product that has one, by the product's id; two queries."""
    return _of(club.pk, StockLine.objects.filter(product__club=club), on)


def _of(club: int, rows: QuerySet[StockLine], on: date) -> dict[int, Stock]:
    by_product: dict[int, list[StockLine]] = defaultdict(list)
    for row in since_counted(rows.filter(on__lte=on, taken_back_at=None), on).order_by("on", "pk"):
        by_product[row.product_id].append(row)
    since = min((_counts_from(some).on for some in by_product.values()), default=on)
    drawn = _drawn(club, by_product, since, on) if by_product else {}
    return {pk: _stock(some, drawn.get(pk, ())) for pk, some in by_product.items()}


def since_counted(rows: QuerySet[StockLine], on: date) -> QuerySet[StockLine]:
    """Of each product the last count with what came after it, or all where nothing was counted yet."""
    counts = StockLine.objects.filter(
        product=OuterRef("product"), kind=StockKind.COUNTED, on__lte=on, taken_back_at=None
    )
    later = Q(on__gt=OuterRef("on")) | Q(on=OuterRef("on"), pk__gt=OuterRef("pk"))
    return rows.filter(~Exists(counts.filter(later)))


def _counts_from(some: list[StockLine]) -> StockLine:
    """The last count, or the first delivery where nothing was counted yet."""
    return next((row for row in reversed(some) if row.kind == StockKind.COUNTED), some[0])


def _drawn(club: int, products: Iterable[int], since: date, on: date) -> dict[int, list[Drawn]]:
    """What the diary used of each product in a span of days, entry by entry; one query."""
    used = EntryProduct.objects.filter(
        entry__club=club,  # so that its days are looked up first
        entry__kind__in=WITH_PRODUCT,
        entry__on__range=(since, on),
        entry__taken_back_at=None,
        label__product__in=list(products),
    )
    found = defaultdict(list)
    for product, *said in used.order_by().values_list("label__product", *COLUMNS):
        found[product].append(Drawn(*said))
    return found


def _stock(some: list[StockLine], drawn: Iterable[Drawn]) -> Stock:
    """From the last count on, or from the first delivery where nothing was counted yet.

    Work of the day of a count was done after it where it was logged after it.
    """
    counts = [row for row in some if row.kind == StockKind.COUNTED]
    last, unit = (counts[-1] if counts else None), some[-1].unit
    delivered = [row for row in some if row.kind == StockKind.DELIVERED and row.unit == unit]
    if last:
        came = sum(row.amount for row in delivered if (row.on, row.pk) > (last.on, last.pk))
        since = last.on, last.made_at
        used = sum(one.amount for one in drawn if one.unit == unit and (one.on, one.logged_at) > since)
        return Stock(last.amount + came - used, unit, some[-1])
    used = sum(one.amount for one in drawn if one.unit == unit and one.on >= some[0].on)
    return Stock(sum(row.amount for row in delivered) - used, unit, some[-1])
