"""What to order: the feeds and sands that the programmes of all greens ask for, against the shed."""

from dataclasses import dataclass, field
from datetime import date, timedelta

from greens.models import Club, Label, Product
from greens.queries import stock
from greens.queries.stock import Stock
from growin.agronomy import amounts as in_agronomy
from growin.models import ProgrammeStep
from growin.queries import amounts
from growin.queries.amounts import ProductAmount
from growin.queries.remembered import kept_while_unchanged
from growin.queries.shortage import to_come


@dataclass
class Order:
    """One product: what the steps need of it in g or ml, and what would do ``instead``."""

    label: Label
    stock: Stock | None
    needed: int = 0
    steps: list[ProgrammeStep] = field(default_factory=list)
    instead: dict[str, None] = field(default_factory=dict)

    @property
    def product(self) -> Product:
        return self.label.product

    @property
    def to_order(self) -> int:
        """What is missing; all of it where nothing was ever counted."""
        return max(self.needed - (max(self.stock.amount, 0) if self.stock else 0), 0)

    @property
    def first(self) -> ProgrammeStep:
        return self.steps[0]

    @property
    def places(self) -> str:
        """The greens that wait for it: "Seventh, Eleventh"."""
        return ", ".join(dict.fromkeys(str(one.programme.establishment.green) for one in self.steps))

    @property
    def needed_words(self) -> str:
        return in_agronomy.in_words(self.needed, self.label.unit)

    @property
    def to_order_words(self) -> str:
        return in_agronomy.in_words(self.to_order, self.label.unit)


@dataclass(frozen=True)
class Orders:
    """The order list of some weeks; ``unmet`` are steps for which the store has no product at all."""

    rows: tuple[Order, ...]
    unmet: tuple[ProgrammeStep, ...]


@kept_while_unchanged
def orders(club: Club, on: date, weeks: int) -> Orders:
    """What the next weeks need, by the day of the first step that needs it; eight queries."""
    stocks, shed = stock.of_club(club, on), amounts.store_of(club)
    left = {pk: max(one.amount, 0) for pk, one in stocks.items()}
    rows: dict[int, Order] = {}
    unmet = []
    for step in to_come(club, on, timedelta(weeks=weeks)):
        fits = amounts.of_step(step, step.programme.establishment.green.area_m2, shed)
        if fits:
            _put(rows, step, fits, left, stocks)
        else:
            unmet.append(step)
    return Orders(tuple(rows.values()), tuple(unmet))


def _put(rows: dict[int, Order], step: ProgrammeStep, fits: list[ProductAmount], left: dict, stocks) -> None:
    """The step draws on the product of which most is left."""
    best = max(fits, key=lambda one: left.get(one.label.product_id, 0) - one.amount)
    pk = best.label.product_id
    row = rows.setdefault(pk, Order(best.label, stocks.get(pk)))
    row.needed += best.amount
    row.steps.append(step)
    row.instead |= {str(one.label.product): None for one in fits if one is not best}
    left[pk] = left.get(pk, 0) - best.amount
