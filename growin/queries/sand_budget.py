"""The sand a green has had this year pass by pass, what is planned, and how much of it was cored."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from greens.choices import ProductKind
from greens.models import Club, Entry, Establishment, Green
from greens.queries import diary, greens, sands, store
from greens.queries import settings as constants
from greens.queries.sands import Dressing
from growin.agronomy import sand
from growin.agronomy.dressing import depth_mm
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.season import year_start
from growin.agronomy.season_limits import Bound, standing
from growin.queries import facts, suits
from growin.queries.amounts import SAND_RATE
from growin.queries.planned import planned, to_come
from growin.queries.remembered import kept_while_unchanged

ONE_DAY = timedelta(days=1)


@dataclass(frozen=True)
class Pass:
    """One dressing on one green: kg/m², and what that is in depth, volume and mass."""

    on: date
    entry_id: int
    kg_m2: float
    mm: float
    m3: float
    t: float


@dataclass(frozen=True)
class SandBudget:
    """The sand of a green since midwinter; ``cored_percent`` of the surface, None where nothing was cored."""

    establishment: Establishment
    since: date
    on: date
    passes: Sequence[Pass]
    planned: Sequence[tuple[date, float]]
    rest: Sequence[tuple[date, float]]
    band: tuple[float, float]
    near_percent: float
    cored_percent: float | None

    @property
    def green(self):
        return self.establishment.green

    @property
    def kg_m2(self) -> float:
        return sum(one.kg_m2 for one in self.passes)

    @property
    def mm(self) -> float:
        return sum(one.mm for one in self.passes)

    @property
    def m3(self) -> float:
        return sum(one.m3 for one in self.passes)

    @property
    def t(self) -> float:
        return sum(one.t for one in self.passes)

    @property
    def planned_so_far(self) -> float:
        return sum(kg_m2 for day, kg_m2 in self.planned if self.since <= day <= self.on)

    @property
    def to_come(self) -> float:
        """What the rest of the programme of this year will add, kg/m²."""
        return to_come(self.rest, self.on, self.since.replace(year=self.since.year + 1) - ONE_DAY)

    @property
    def bound(self) -> Bound:
        """What is usual in a year, at most."""
        return Bound(self.kg_m2, self.band[1], "since midwinter")

    @property
    def may_still(self) -> float:
        return self.bound.left

    @property
    def stands(self) -> str:
        return standing(self.bound.total, self.bound.most, self.near_percent)


@kept_while_unchanged
def of_club(club: Club, on: date) -> list[SandBudget]:
    """Every rebuilt green that is laid or sown, in the order of the course; ten queries at most."""
    return budgets(club, greens.laid_establishments(club, on), on)


@kept_while_unchanged
def of_rebuild(establishment: Establishment, on: date) -> SandBudget:
    return budgets(establishment.green.club, [establishment], on)[0]


def suits_of(establishment: Establishment, on: date) -> list[str]:
    """A sentence on each sand of the store that has a grading, against the rootzone of the green."""
    green = establishment.green
    settings = constants.in_force(green.club, on, green)
    labels = store.labels_in_use(green.club, ProductKind.SAND).select_related("product__material")
    return [said for label in labels for said in suits.sand_on(label, [green], settings)]


def budgets(club: Club, rebuilds: Sequence[Establishment], on: date) -> list[SandBudget]:
    settings = constants.in_force_by_green(club, on, [one.green_id for one in rebuilds])
    since = year_start(on, float(club.latitude_deg))
    density = facts.bulk_density_t_m3(club, constants.in_force(club, on))
    spread = [one.green for one in rebuilds]
    had, cored = sands.dressings(spread, (since, on)), cores(club, spread, since, on)
    steps = planned(rebuilds, SAND_RATE)
    return [
        SandBudget(
            establishment=one,
            since=since,
            on=on,
            passes=[pass_of(row, density) for row in had.get(one.green_id, ())],
            planned=steps.all.get(one.pk, ()),
            rest=steps.rest.get(one.pk, ()),
            band=tuple(settings[one.green_id][f"dressing.season_{end}_kg_m2"] for end in ("low", "high")),
            near_percent=settings[one.green_id]["season.near_percent"],
            cored_percent=cored.get(one.green_id),
        )
        for one in rebuilds
    ]


def pass_of(one: Dressing, usual_t_m3: float) -> Pass:
    """A dressing in depth, volume and mass, by its own bulk density or the usual one."""
    mm = depth_mm(one.kg_m2, float(one.bulk_density_t_m3 or usual_t_m3))
    return Pass(one.on, one.entry_id, one.kg_m2, mm, mm * one.area_m2 / 1000, one.kg_m2 * one.area_m2 / 1000)


def cores(club: Club, spread: Sequence[Green], since: date, on: date) -> dict[int, float]:
    """Share of each green's surface opened by hollow tines, %, by its id; two queries."""
    entries = diary.of(club).filter(kind="aerate", on__range=(since, on), details__kind="hollow")
    found: dict[int, float] = {}
    for green_id, rows in diary.by_green(entries, spread).items():
        opened = [share for share in map(opened_percent, rows) if share is not None]
        if opened:
            found[green_id] = sum(opened)
    return found


def opened_percent(entry: Entry) -> float | None:
    """What one pass of hollow tines opened; None where its pattern was not written down, or cannot be."""
    pattern = [entry.details.get(key) for key in ("tine_diameter_mm", "spacing_mm", "row_spacing_mm")]
    if any(one is None for one in pattern):
        return None
    try:
        return sand.hollow_coring(*map(float, pattern)).surface_percent
    except ImpossibleValue:
        return None
