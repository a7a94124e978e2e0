"""What a green was given of each element in a season, beside plan, band and limit."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from greens.models import Establishment, Green
from greens.queries import nutrients
from growin.agronomy import season_nutrition as sums
from growin.agronomy.nutrition import MG_M2_PER_KG_HA
from growin.agronomy.season_limits import standing
from growin.queries import budget
from growin.queries.planned import planned


@dataclass(frozen=True)
class Nutrient:
    """One element of a season, kg/ha; None where nothing is planned, said or known."""

    element: str
    words: str
    had: float
    planned: float | None
    belongs: float | None
    limit: float | None
    stands: str = ""


@dataclass(frozen=True)
class Band:
    """What is usual in nitrogen for such a season, and what was had from its first day to its last, kg/ha."""

    first: date
    last: date
    had: float
    low: float
    high: float
    stands: str


def nutrients_of(
    green: Green, rebuilt: Establishment | None, first: date, until: date, settings: Mapping[str, float]
) -> list[Nutrient]:
    """Each element that was given, planned or limited, in the order of the labels."""
    had = nutrients.sums_mg_m2(green, budget.SHOWN, first, until)
    n_kg_ha, found = had.get("N", 0) / MG_M2_PER_KG_HA, []
    for element, words in budget.SHOWN.items():
        kg_ha, limit = had.get(element, 0) / MG_M2_PER_KG_HA, budget.limit_of(green.club, element)
        belongs = sums.belongs_with(element, n_kg_ha, settings)
        plan = planned_of(rebuilt, element, first, until)
        stands = standing(kg_ha, limit, settings["season.near_percent"]) if limit is not None else ""
        if kg_ha or plan or limit is not None:
            found.append(Nutrient(element, words, kg_ha, plan, belongs, limit, stands))
    return found


def planned_of(rebuilt: Establishment | None, element: str, first: date, until: date) -> float | None:
    """What the programme in force planned of an element in a span of days; None where it plans none."""
    if rebuilt is None or element not in budget.UNIT_OF:
        return None
    steps = planned([rebuilt], budget.UNIT_OF[element]).all.get(rebuilt.pk, ())
    return sum(kg_ha for day, kg_ha in steps if first <= day <= until) or None


def band_of(rebuilt: Establishment, first: date, until: date) -> Band | None:
    """The band of the season that fills most of the year: the first one's, or that of grass in play."""
    first_ends = rebuilt.established_on + sums.FIRST_SEASON - sums.ONE_DAY
    is_mostly_first = first <= first_ends < until and first_ends - first > until - first_ends
    on = first_ends if is_mostly_first else until
    found = budget.of_rebuild(rebuilt, "N", on)
    if found.band is None:
        return None
    low, high = found.band
    return Band(found.first, on, found.so_far, low, high, standing(found.so_far, high, found.near_percent))
