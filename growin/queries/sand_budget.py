"""The sand a green has had this year pass by pass, what is planned, and how much of it was cored."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from greens.choices import ProductKind
from greens.models import Club, Entry, EntryGreen, Establishment, Green
from greens.queries import diary, greens, sands, store
from greens.queries import settings as constants
from growin.agronomy import sand
from growin.agronomy.dressing import depth_mm
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.season import year_start
from growin.agronomy.season_limits import standing
from growin.queries import facts, suits
from growin.queries.amounts import SAND_RATE
from growin.queries.planned import planned
from growin.queries.remembered import kept_while_unchanged

#: A step long past its day adds nothing.
LATE = timedelta(days=14)


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
    def to_come(self) -> float:
        """What the rest of the programme of this year will add, kg/m²."""
        return sum(
            kg for day, kg in self.rest if self.on <= day < self.since.replace(year=self.since.year + 1)
        )

    @property
    def may_still(self) -> float:
        return self.band[1] - self.kg_m2

    @property
    def stands(self) -> str:
        return standing(self.kg_m2, self.band[1], self.near_percent)


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
    had = passes([one.green for one in rebuilds], since, on, density)
    cored = cores(club, [one.green for one in rebuilds], since, on)
    steps = planned(rebuilds, SAND_RATE)
    return [
        SandBudget(
            establishment=one,
            since=since,
            on=on,
            passes=had.get(one.green_id, ()),
            planned=steps.all.get(one.pk, ()),
            rest=steps.rest.get(one.pk, ()),
            band=tuple(settings[one.green_id][f"dressing.season_{end}_kg_m2"] for end in ("low", "high")),
            near_percent=settings[one.green_id]["season.near_percent"],
            cored_percent=cored.get(one.green_id),
        )
        for one in rebuilds
    ]


def passes(spread: Sequence[Green], since: date, on: date, usual_t_m3: float) -> dict[int, list[Pass]]:
    """The dressings of each green, oldest first, by its id; two queries."""
    rows = sands.used(spread, since, on)
    areas = {entry: 0 for _, entry, *_ in rows}
    lines = list(EntryGreen.objects.filter(entry__in=areas))
    for line in lines:
        areas[line.entry_id] += line.area_dm2
    found: dict[int, list[Pass]] = {}
    for day, entry, grams, density in rows:
        for line in (one for one in lines if one.entry_id == entry and areas[entry]):
            kg_m2 = grams / areas[entry] / 10
            one = pass_of(day, entry, kg_m2, float(density or usual_t_m3), line.area_dm2 / 100)
            found.setdefault(line.green_id, []).append(one)
    return found


def pass_of(on: date, entry: int, kg_m2: float, density_t_m3: float, area_m2: float) -> Pass:
    mm = depth_mm(kg_m2, density_t_m3)
    return Pass(on, entry, kg_m2, mm, mm * area_m2 / 1000, kg_m2 * area_m2 / 1000)


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
