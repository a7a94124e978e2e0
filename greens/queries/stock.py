"""What stands in the shed: the last count, with what was delivered since and what the diary drew."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.db.models import QuerySet, Sum

from greens.choices import StockKind
from greens.models import Club, EntryProduct, Product, StockLine
from growin.agronomy import amounts


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
        return f"{amounts.in_words(max(self.amount, 0), self.unit)} in the shed"


def lines(product: Product) -> QuerySet[StockLine]:
    return product.stock_lines.select_related("by")


def of_product(product: Product, on: date) -> Stock | None:
    """What is there at the end of a day; None while nothing was ever delivered or counted."""
    return _of(StockLine.objects.filter(product=product), on).get(product.pk)


def of_club(club: Club, on: date) -> dict[int, Stock]:
    """The stock of every product that has one, by the product's id; two queries."""
    return _of(StockLine.objects.filter(product__club=club), on)


def _of(rows: QuerySet[StockLine], on: date) -> dict[int, Stock]:
    by_product: dict[int, list[StockLine]] = defaultdict(list)
    for row in rows.filter(on__lte=on).order_by("on", "pk"):
        by_product[row.product_id].append(row)
    drawn = _drawn(by_product, on) if by_product else {}
    return {pk: _stock(some, drawn.get(pk, ())) for pk, some in by_product.items()}


def _drawn(products: Iterable[int], on: date) -> dict[int, list[tuple[date, str, int]]]:
    """What the diary used of each product by day and unit; one query."""
    used = EntryProduct.objects.filter(
        label__product__in=list(products), entry__taken_back_at=None, entry__on__lte=on
    )
    sums = used.order_by().values_list("label__product", "entry__on", "label__unit")
    found = defaultdict(list)
    for product, day, unit, total in sums.annotate(total=Sum("amount")):
        found[product].append((day, unit, total))
    return found


def _stock(some: list[StockLine], drawn: Iterable[tuple[date, str, int]]) -> Stock:
    """From the last count on, or from the first delivery where nothing was counted yet."""
    counts = [row for row in some if row.kind == StockKind.COUNTED]
    last, unit = (counts[-1] if counts else None), some[-1].unit
    delivered = [row for row in some if row.kind == StockKind.DELIVERED and row.unit == unit]
    if last:
        came = sum(row.amount for row in delivered if (row.on, row.pk) > (last.on, last.pk))
        used = sum(total for day, counted_in, total in drawn if counted_in == unit and day > last.on)
        return Stock(last.amount + came - used, unit, some[-1])
    used = sum(total for day, counted_in, total in drawn if counted_in == unit and day >= some[0].on)
    return Stock(sum(row.amount for row in delivered) - used, unit, some[-1])
