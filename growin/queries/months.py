"""A programme as its page lays it out: month by month, with what the first year adds up to."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from greens.models import Establishment
from growin.agronomy.feeding import season_band
from growin.models import Programme, ProgrammeStep
from growin.queries import programme as queries
from growin.queries.amounts import SAND_RATE
from growin.queries.line import Line, Round, lines, round_of
from growin.queries.standing import OVERDUE

YEAR = timedelta(days=365)


@dataclass(frozen=True)
class Month:
    """The steps of one month, and whether its page opens it at once."""

    first: date
    lines: tuple[Line, ...]
    is_open: bool

    @property
    def states(self) -> list[tuple[str, int]]:
        """How many steps stand how, in the order of the month."""
        return list(Counter(one.standing.state for one in self.lines).items())


def page_of(establishment: Establishment, programme: Programme, on: date, kind: str = "") -> dict:
    """Months, sums and dropped steps of the programme in force, all kinds or one; fixed queries."""
    shared = round_of(establishment.green.club, on)
    made = lines(queries.steps(establishment, on), shared, programme)
    standing = [one for one in made if not one.step.is_dropped]
    chosen = [one for one in standing if kind in ("", one.step.kind)]
    return {
        "months": months(chosen, on, bool(kind)),
        "season": season(standing, establishment, shared),
        "dropped": [one for one in made if one.step.is_dropped],
        "otherwise": [one for one in standing if one.drawn],
        "cautions": cautions(chosen),
    }


def cautions(made: Iterable[Line]) -> list:
    """Every caution that these lines call for, once."""
    return list({one.key: one for line in made for one in line.cautions}.values())


def months(made: Iterable[Line], on: date, show_all: bool) -> list[Month]:
    """Lines by the month of their likely day; this month, the next and those with late steps stand open."""
    near = {on.replace(day=1), (on.replace(day=1) + timedelta(days=31)).replace(day=1)}
    found = []
    for first, group in groupby(made, lambda one: one.step.likely.replace(day=1)):
        rows = tuple(group)
        late = any(one.standing.state == OVERDUE for one in rows)
        found.append(Month(first, rows, show_all or first in near or late))
    return found


@dataclass(frozen=True)
class Season:
    """What the programme plans in its first year, as far as it reaches, beside the usual band."""

    until: date
    n_kg_ha: float
    n_band_kg_ha: tuple[float, float]
    sand_kg_m2: float
    sand_band_kg_m2: tuple[float, float]


def season(made: Iterable[Line], establishment: Establishment, shared: Round) -> Season | None:
    """Sums of the steps of the first year since laying or sowing; None before that day is known."""
    since = establishment.established_on
    if since is None:
        return None
    steps = [one.step for one in made if since <= one.step.likely < since + YEAR]
    sand = tuple(shared.settings[f"dressing.season_{end}_kg_m2"] for end in ("low", "high"))
    band = season_band(establishment.kind, establishment.species, shared.settings)
    until = max((step.likely for step in steps if step.unit), default=since)
    return Season(until, _sum(steps, "kg N/ha"), band, _sum(steps, SAND_RATE), sand)


def _sum(steps: Iterable[ProgrammeStep], unit: str) -> float:
    return sum(step.amount or 0 for step in steps if step.unit == unit)
