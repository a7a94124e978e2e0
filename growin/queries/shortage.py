"""What the shed lacks for the next steps of all programmes of a club."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from greens.models import Club, Product
from greens.queries import greens, stock
from greens.queries.stock import Stock
from growin.agronomy import amounts as in_agronomy
from growin.models import ProgrammeStep
from growin.queries import amounts, programme
from growin.queries.amounts import ProductAmount
from growin.queries.standing import id_of

#: So far ahead it is looked (our judgement: a delivery takes a week or two).
AHEAD = timedelta(days=28)
#: A step is still to be done for so long after its latest day.
LATE = timedelta(days=14)


@dataclass
class Short:
    """A product that runs out: the first step it does not cover, and how much is missing in all."""

    product: Product
    stock: Stock
    first: ProgrammeStep
    missing: int = 0

    @property
    def missing_words(self) -> str:
        return in_agronomy.in_words(self.missing, self.stock.unit)


def shortages(club: Club, on: date) -> list[Short]:
    """Products that do not last for the steps of the next four weeks; empty while nothing was counted.

    Steps are served in their order from whichever product that fits has most left; a product that nobody
    ever counted may have enough.
    """
    stocks = stock.of_club(club, on)
    if not stocks:
        return []
    left = {pk: max(one.amount, 0) for pk, one in stocks.items()}
    shed, short = amounts.store_of(club), {}
    for step in to_come(club, on):
        fits = amounts.of_step(step, step.programme.establishment.green.area_m2, shed)
        served = serve(fits, left, stocks)
        if served is not None:
            pk = served.label.product_id
            row = short.setdefault(pk, Short(served.label.product, stocks[pk], step))
            row.missing += served.amount - left[pk]
            left[pk] = 0
    return list(short.values())


def serve(
    fits: list[ProductAmount], left: dict[int, int], stocks: Mapping[int, Stock]
) -> ProductAmount | None:
    """Draw a step from the shed; the product that does not reach, where none does."""
    if not fits or any(one.label.product_id not in stocks for one in fits):
        return None
    best = max(fits, key=lambda one: left[one.label.product_id] - one.amount)
    if left[best.label.product_id] < best.amount:
        return best
    left[best.label.product_id] -= best.amount
    return None


def to_come(club: Club, on: date, ahead: timedelta = AHEAD) -> list[ProgrammeStep]:
    """Feeds and dressings of the next weeks that are not answered, on all greens, by their day."""
    rebuilds = list(greens.current_establishments(club).values())
    steps = programme.steps_in_force(rebuilds).filter(
        is_dropped=False, amount__isnull=False, unit__in=(*amounts.RATES, amounts.SAND_RATE),
        likely__lte=on + ahead, latest__gte=on - LATE,
    )  # fmt: skip
    rows = programme.at_hand(steps, rebuilds)
    over = {(one.establishment_id, one.key) for one in programme.settled(rebuilds, rows)}
    return [row for row in rows if id_of(row) not in over]
