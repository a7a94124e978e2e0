"""What a planned rate means for this green: product by the feeds in the store, sand in m³ and t."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from greens.choices import ProductKind
from greens.models import Club, Label
from greens.queries import store
from growin.agronomy import amounts, dressing
from growin.agronomy.feeding import DEFAULTS
from growin.agronomy.label import half_up
from growin.agronomy.plain_words import amount
from growin.agronomy.works import WORKS
from growin.models import ProgrammeStep
from growin.queries.remembered import kept_while_the_frame_stands

#: The element that a rate names, by its unit.
RATES: Mapping[str, str] = {"kg N/ha": "N", "kg P/ha": "P"}
#: For each 1 of nitrogen; where a product brings more, it is said.
BELONGS = {"P": DEFAULTS["feeding.ratio.p_per_n"].value, "K": DEFAULTS["feeding.ratio.k_per_n"].value}
SAND_RATE = "kg/m²"
FEEDS = (ProductKind.GRANULAR, ProductKind.LIQUID)
#: The one detail of an entry that the amount of a step gives.
DETAILS: Mapping[str, str] = {"cut": "height_mm", "water": "depth_mm", "hand_water": "depth_mm"}


@dataclass(frozen=True)
class Store:
    """The feeds and sands in use, read once for a page; three queries."""

    feeds: tuple[Label, ...] = ()
    sands: tuple[Label, ...] = ()


@dataclass(frozen=True)
class ProductAmount:
    """So much of one product over the whole green: ``amount`` in g or ml."""

    label: Label
    amount: int
    brings: str = ""

    @property
    def words(self) -> str:
        """As said in the shed: "3.6 kg of Heath 12-0-9"; and what it brings beyond what belongs with it."""
        beside = f" (brings {self.brings})" if self.brings else ""
        return f"{amounts.in_words(self.amount, self.label.unit)} of {self.label.product}{beside}"


@dataclass(frozen=True)
class AsPlanned:
    """What an entry would hold if the step were done just as planned."""

    details: Mapping = field(default_factory=dict)
    products: tuple[ProductAmount, ...] = ()


@kept_while_the_frame_stands
def store_of(club: Club) -> Store:
    """What the club has to feed and to dress with."""
    labels = list(store.labels_in_use(club, *FEEDS, ProductKind.SAND))
    feeds = tuple(label for label in labels if label.product.kind in FEEDS)
    return Store(feeds, tuple(label for label in labels if label.product.kind == ProductKind.SAND))


@kept_while_the_frame_stands
def labels_offered(club: Club, takes_product: str, also: tuple[int, ...]) -> list[Label]:
    """What a form for work of this kind may name, as :func:`greens.queries.store.labels_for` has it."""
    return list(store.labels_for(club, takes_product, also))


def of_step(step: ProgrammeStep, area_m2: float | None, shed: Store) -> list[ProductAmount]:
    """Each product that could bring the planned amount to this area, and how much of it."""
    if not step.amount or not area_m2:
        return []
    if step.unit in RATES:
        return [one for one in _feeds(step, area_m2, shed.feeds) if one.amount]
    return _sands(step, area_m2, shed.sands) if step.unit == SAND_RATE else []


def _feeds(step: ProgrammeStep, area_m2: float, labels: Iterable[Label]) -> list[ProductAmount]:
    element, grams = RATES[step.unit], Fraction(str(step.amount)) / 10 * Fraction(str(area_m2))
    held = [(label, label.contents) for label in labels]
    return [
        ProductAmount(
            label, half_up(grams * 1000 / Fraction(has[element])), beyond(has, element, step.amount)
        )
        for label, has in held
        if has.get(element)
    ]


def beyond(contents: Mapping, element: str, rate_kg_ha: float) -> str:
    """Phosphorus and potassium that come with a rate of nitrogen beyond what belongs with it."""
    if element != "N":
        return ""
    share = {other: float(contents.get(other, 0)) / float(contents["N"]) for other in BELONGS}
    over = [
        f"{amount(rate_kg_ha * one)} kg {other}/ha" for other, one in share.items() if one > BELONGS[other]
    ]
    return " and ".join(over)


def _sands(step: ProgrammeStep, area_m2: float, labels: Iterable[Label]) -> list[ProductAmount]:
    grams = half_up(Fraction(str(step.amount)) * 1000 * Fraction(str(area_m2)))
    return [ProductAmount(label, grams) for label in labels if label.unit == "g"]


def sand_words(step: ProgrammeStep, area_m2: float | None, bulk_density_t_m3: float) -> str:
    """Volume and mass of a dressing on this area: "0.14 m³, 0.23 t"; empty for other steps."""
    if step.unit != SAND_RATE or not step.amount or not area_m2:
        return ""
    whole = dressing.sand_for(step.amount, area_m2, bulk_density_t_m3)
    return f"{amount(whole.volume_m3, 'm³', 2)}, {amount(whole.mass_t, 't', 2)}"


def as_planned(step: ProgrammeStep, area_m2: float | None, shed: Store) -> AsPlanned | None:
    """The entry of a step done as planned; None where somebody must still say more.

    A feed or dressing needs exactly one product in the store that fits; a work whose entry must
    name what the plan does not (a machine, a kind of tine) has to be logged.
    """
    work = WORKS.get(step.kind)
    if work is None:
        return None
    details = _details(step)
    if any(one.required and one.key not in details for one in work.fields):
        return None
    if not work.takes_product:
        return AsPlanned(details)
    products = of_step(step, area_m2, shed)
    return AsPlanned(details, tuple(products)) if len(products) == 1 else None


def _details(step: ProgrammeStep) -> dict:
    name = DETAILS.get(step.kind)
    return {name: step.amount} if name and step.amount and step.unit == "mm" else {}
