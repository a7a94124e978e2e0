"""What a green has had of a nutrient this season, what is planned, and what it may still have."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property
from typing import NamedTuple

from greens.models import Club, Establishment
from greens.queries import greens, nutrients
from greens.queries import settings as constants
from growin.agronomy import season_nutrition as sums
from growin.agronomy.feeding import season_band
from growin.agronomy.nutrition import OXIDES
from growin.agronomy.season import year_start
from growin.agronomy.season_limits import Bound, standing, tightest
from growin.agronomy.season_nutrition import Given
from growin.queries.amounts import RATES
from growin.queries.planned import Planned, planned, to_come
from growin.queries.remembered import kept_while_unchanged

LATELY = timedelta(days=30)
#: Elements in the order in which labels print them.
SHOWN = {
    "N": "nitrogen", "P": "phosphorus", "K": "potassium", "Ca": "calcium", "Mg": "magnesium", "S": "sulphur",
    "Fe": "iron", "Mn": "manganese",
}  # fmt: skip
OXIDE_OF = {element: (oxide, float(share)) for oxide, (element, share) in OXIDES.items()}
UNIT_OF = {element: unit for unit, element in RATES.items()}
LONGEST = timedelta(days=3 * 366)


class Figures(NamedTuple):
    """What a page says of a budget, kg/ha."""

    so_far: float
    lately: float
    planned_so_far: float
    to_come: float
    low: float | None
    high: float | None
    limit: float | None
    may_still: float | None
    unplanned: float | None
    bound: float
    belongs: float | None


@dataclass(frozen=True)
class Budget:
    """One element on one rebuild, kg/ha: ``given`` since its works began, ``planned`` steps with their days.

    ``band`` is the lowest and highest of the season, None where none is published; ``limit`` is the club's
    own for a year, which begins at midwinter on ``year_from``.
    """

    establishment: Establishment
    element: str
    on: date
    first: date
    last: date
    given: Sequence[Given]
    planned: Sequence[tuple[date, float]]
    rest: Sequence[tuple[date, float]]
    year_from: date
    band: tuple[float, float] | None
    limit: float | None
    near_percent: float
    nitrogen_kg_ha: float
    belongs: float | None

    @property
    def green(self):
        return self.establishment.green

    @cached_property
    def so_far(self) -> float:
        return sums.total(self.given, self.first, self.on)

    @property
    def lately(self) -> float:
        """In the last 30 days."""
        return sums.total(self.given, self.on - LATELY, self.on)

    @property
    def planned_so_far(self) -> float:
        return sum(kg for day, kg in self.planned if self.first <= day <= self.on)

    @property
    def to_come(self) -> float:
        """What the rest of the programme of this season will add."""
        return to_come(self.rest, self.on, self.last)

    @property
    def bound(self) -> Bound | None:
        """The season's band or the club's limit of a year, whichever leaves less."""
        found = []
        if self.band:
            found.append(Bound(self.so_far, self.band[1], f"in {self.season_words}"))
        if self.limit is not None:
            year = sums.total(self.given, self.year_from, self.on)
            found.append(Bound(year, self.limit, "this year, by the club's own limit"))
        return tightest(found)

    @property
    def may_still(self) -> float | None:
        """What may be given yet, the planned rest among it; below nothing where it is over."""
        return self.bound and self.bound.left

    @property
    def unplanned(self) -> float | None:
        """What would be left after the planned rest."""
        return None if self.may_still is None else self.may_still - self.to_come

    @property
    def stands(self) -> str:
        """ "close to", "over" or nothing."""
        return standing(self.bound.total, self.bound.most, self.near_percent) if self.bound else ""

    @property
    def still_bound(self) -> float:
        """Slow nitrogen that is still to come free."""
        return sums.still_bound(self.given, self.on)

    @property
    def season_words(self) -> str:
        laid = self.establishment.established_on
        return "its first season" if self.first <= laid else "this season since midwinter"

    def figures(self, factor: float = 1.0) -> "Figures":
        """All its figures, as the element or times what makes an oxide of it."""
        low, high = self.band or (None, None)
        said = (
            self.so_far, self.lately, self.planned_so_far, self.to_come, low, high, self.limit,
            self.may_still, self.unplanned, self.still_bound, self.belongs,
        )  # fmt: skip
        return Figures(*(None if one is None else one * factor for one in said))

    def feeds(self, factor: float = 1.0) -> list[tuple[date, float]]:
        """The feeds of the season by day, the newest first."""
        found: dict[date, float] = {}
        for one in self.given:
            if self.first <= one.on <= self.on:
                found[one.on] = found.get(one.on, 0) + one.kg_ha * factor
        return sorted(found.items(), reverse=True)

    def running(self) -> list[tuple[date, float]]:
        return sums.running(self.given, self.first, self.on)

    def running_plan(self) -> list[tuple[date, float]]:
        return sums.running([Given(day, kg) for day, kg in self.planned], self.first, self.last)


@kept_while_unchanged
def of_club(club: Club, element: str, on: date) -> list[Budget]:
    """Every rebuilt green that is laid or sown, in the order of the course; seven queries at most."""
    return list(budgets(club, greens.laid_establishments(club, on), element, on).values())


@kept_while_unchanged
def of_rebuild(establishment: Establishment, element: str, on: date) -> Budget | None:
    """One rebuild; None before it is laid or sown."""
    if establishment.established_on is None or establishment.established_on > on:
        return None
    return budgets(establishment.green.club, [establishment], element, on)[establishment.pk]


def budgets(club: Club, rebuilds: Sequence[Establishment], element: str, on: date) -> dict[int, Budget]:
    settings = constants.in_force_by_green(club, on, [one.green_id for one in rebuilds])
    weeks = constants.in_force(club, on)["feeding.release_weeks"]
    spread = [one.green for one in rebuilds]
    had = nutrients.given(spread, element, on - LONGEST, on, weeks)
    nitrogen = had if element == "N" else nutrients.given(spread, "N", on - LONGEST, on, weeks)
    steps = planned(rebuilds, UNIT_OF.get(element))
    return {
        one.pk: budget(one, element, on, had, nitrogen, steps, settings[one.green_id]) for one in rebuilds
    }


def budget(
    rebuild: Establishment,
    element: str,
    on: date,
    had: Mapping[int, list[Given]],
    nitrogen: Mapping[int, list[Given]],
    steps: Planned,
    settings: Mapping[str, float],
) -> Budget:
    club, laid = rebuild.green.club, rebuild.established_on
    begins, last = sums.season_of(laid, on, float(club.latitude_deg))
    first = min(rebuild.works_started_on, laid) if begins == laid else begins
    n_kg_ha = sums.total(nitrogen.get(rebuild.green_id, ()), first, on)
    return Budget(
        establishment=rebuild,
        element=element,
        on=on,
        first=first,
        last=last,
        given=[one for one in had.get(rebuild.green_id, ()) if one.on >= rebuild.works_started_on],
        planned=steps.all.get(rebuild.pk, ()),
        rest=steps.rest.get(rebuild.pk, ()),
        year_from=year_start(on, float(club.latitude_deg)),
        band=band_of(rebuild, element, begins, settings),
        limit=limit_of(club, element),
        near_percent=settings["season.near_percent"],
        nitrogen_kg_ha=n_kg_ha,
        belongs=sums.belongs_with(element, n_kg_ha, settings),
    )


def band_of(rebuild: Establishment, element: str, first: date, settings) -> tuple[float, float] | None:
    """Of nitrogen alone: that of the first season, then that of the grass in play."""
    if element != "N":
        return None
    if first == rebuild.established_on:
        return season_band(rebuild.kind, rebuild.species, settings)
    return sums.in_play_band(rebuild.species, settings)


def limit_of(club: Club, element: str) -> float | None:
    own = {"N": club.year_limit_n_kg_ha, "P": club.year_limit_p_kg_ha}.get(element)
    return None if own is None else float(own)
