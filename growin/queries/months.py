"""A programme as its page lays it out: month by month, with what the first year adds up to."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from greens.models import Establishment
from growin.agronomy.feeding import season_band
from growin.agronomy.season_nutrition import in_play_band
from growin.models import Programme, ProgrammeStep
from growin.queries import programme as queries
from growin.queries.amounts import SAND_RATE
from growin.queries.line import Line, Round, lines, round_of
from growin.queries.remembered import kept_while_unchanged
from growin.queries.standing import BEFORE, Standing

YEAR = timedelta(days=365)


@dataclass(frozen=True)
class Month:
    """The steps of one month; its ``lines`` are there when the page opens it."""

    first: date
    standings: tuple[Standing, ...]
    lines: tuple[Line, ...] = ()

    @property
    def key(self) -> str:
        """As it stands in an address: "2026-06"."""
        return f"{self.first:%Y-%m}"

    @property
    def states(self) -> list[tuple[str, int]]:
        """How many steps stand how, in the order of the month."""
        return list(Counter(one.state for one in self.standings).items())


@kept_while_unchanged
def page_of(
    establishment: Establishment, programme: Programme, on: date, kind: str = "", asked: str = ""
) -> dict:
    """The programme in force, all kinds or one, in a fixed number of queries.

    ``asked`` opens one more month ("2026-06"), or "all".
    """
    shared = round_of(establishment.green.club, on)
    whole = queries.steps(establishment, on)
    standing = [one for one in whole if not one.step.is_dropped]
    chosen = [one for one in standing if kind in ("", one.step.kind)]
    found = [
        Month(one.first, one.standings, tuple(lines(one.standings, shared, programme)))
        if is_open(one, on, "all" if kind else asked)
        else one
        for one in months(chosen)
    ]
    by_hand = [one for one in standing if one.step.key in programme.difference.get("drawn", {})]
    planned = [one.step for one in standing if one.state != BEFORE]
    return {
        "earlier": [one for one in found if is_earlier(one, on)],
        "months": [one for one in found if not is_earlier(one, on)],
        "season": season(planned, establishment, shared, on),
        "dropped": [one for one in whole if one.step.is_dropped],
        "otherwise": [one for one in lines(by_hand, shared, programme) if one.drawn],
        "cautions": cautions(line for month in found for line in month.lines),
    }


def cautions(made: Iterable[Line]) -> list:
    """Every caution that these lines call for, once."""
    return list({one.key: one for line in made for one in line.cautions}.values())


def months(standings: Iterable[Standing]) -> list[Month]:
    """Steps by the month of their likely day."""
    grouped = groupby(standings, lambda one: one.step.likely.replace(day=1))
    return [Month(first, tuple(rows)) for first, rows in grouped]


def is_earlier(month: Month, on: date) -> bool:
    """Whether a month lies behind and nobody has opened it."""
    return month.first < on.replace(day=1) and not month.lines


def is_open(month: Month, on: date, asked: str) -> bool:
    """This month, the next, those with late steps, and the one asked for stand open."""
    this = on.replace(day=1)
    near = {this, (this + timedelta(days=31)).replace(day=1)}
    late = any(one.is_late for one in month.standings)
    return late or month.first in near or asked in (month.key, "all")


@dataclass(frozen=True)
class Season:
    """What the programme plans ``until`` a day, beside the usual band: of the first year since laying or
    sowing, and once that is over of the year to come."""

    is_first: bool
    until: date
    n_kg_ha: float
    n_band_kg_ha: tuple[float, float]
    sand_kg_m2: float
    sand_band_kg_m2: tuple[float, float]


def season(
    planned: Iterable[ProgrammeStep], establishment: Establishment, shared: Round, on: date
) -> Season | None:
    """Sums of the steps of a year; None before the day of laying or sowing is known."""
    laid = establishment.established_on
    if laid is None:
        return None
    first = on < laid + YEAR
    since = laid if first else on
    steps = [step for step in planned if since <= step.likely < since + YEAR]
    sand = tuple(shared.settings[f"dressing.season_{end}_kg_m2"] for end in ("low", "high"))
    until = max((step.likely for step in steps if step.unit), default=since)
    band = band_of(establishment, first, shared.settings)
    return Season(first, until, _sum(steps, "kg N/ha"), band, _sum(steps, SAND_RATE), sand)


def band_of(establishment: Establishment, first: bool, settings: Mapping[str, float]) -> tuple[float, float]:
    """Nitrogen of the first season, or of a year in play, kg/ha."""
    if first:
        return season_band(establishment.kind, establishment.species, settings)
    return in_play_band(establishment.species, settings)


def _sum(steps: Iterable[ProgrammeStep], unit: str) -> float:
    return sum(step.amount or 0 for step in steps if step.unit == unit)
