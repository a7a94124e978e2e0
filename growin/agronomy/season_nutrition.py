"""A season's feeding added up: what was given, what of it is free by now, what may still come.

Nomenclature: rates in kg/ha of the element. Quick nitrogen counts on its day; slow nitrogen spreads evenly
over the weeks that its label declares. Nothing is taken off for what washes out or goes with clippings.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT, PUBLISHED, Default, table
from growin.agronomy.season import year_start
from growin.agronomy.species import BENT, FESCUE, FESCUE_BENT, POA, POA_BENT, SPECIES, setting_name

DAYS_A_WEEK = 7
FIRST_SEASON, ONE_DAY = timedelta(days=365), timedelta(days=1)
#: The element's partner: of each, so much belongs with 1 of nitrogen taken up.
BELONGS = {"P": "p", "K": "k", "Ca": "ca", "Mg": "mg"}


def _in_play(species: str, mark: str, source: str = "") -> tuple[Default, Default]:
    low, high = SPECIES[species].nitrogen_in_play_kg_ha
    key, words = f"feeding.in_play.{setting_name(species)}", f"nitrogen a year once in play, {species}"
    return tuple(
        Default(f"{key}.{end}_n_kg_ha", value, "kg N/ha", f"{words}: {end}est", 0, 400, mark, source)
        for end, value in (("low", low), ("high", high))
    )


DEFAULTS = table(
    *_in_play(BENT, PUBLISHED, "USGA 2023"),
    *_in_play(FESCUE_BENT, COMMON_PRACTICE),
    *_in_play(FESCUE, COMMON_PRACTICE),
    *_in_play(POA_BENT, COMMON_PRACTICE),
    *_in_play(POA, PUBLISHED, "Rutgers University"),
    Default(
        "feeding.release_weeks",
        8,
        "weeks",
        "Slow nitrogen whose label declares no weeks is free after",
        1,
        52,
        OUR_JUDGEMENT,
    ),
)


@dataclass(frozen=True)
class Given:
    """One feed: ``kg_ha`` of the element in all, of which ``slow_kg_ha`` comes free over ``weeks``."""

    on: date
    kg_ha: float
    slow_kg_ha: float = 0.0
    weeks: float = 0.0

    def free_kg_ha(self, on: date) -> float:
        """What of it is free by a day."""
        if on < self.on:
            return 0.0
        days = (on - self.on).days
        share = 1.0 if not self.weeks else min(1.0, days / (DAYS_A_WEEK * self.weeks))
        return self.kg_ha - self.slow_kg_ha + self.slow_kg_ha * share


def in_first_season(laid_on: date, on: date) -> bool:
    """Whether the bands of a first season count: within a year of laying or sowing."""
    return laid_on <= on < laid_on + FIRST_SEASON


def season_of(laid_on: date, on: date, latitude_deg: float) -> tuple[date, date]:
    """First and last day of the season that a day lies in: a year from laying or sowing, then from midwinter
    to midwinter.

    The year in which the first season ends counts from that end on. A day before laying has none yet.
    """
    if in_first_season(laid_on, on):
        return laid_on, laid_on + FIRST_SEASON - ONE_DAY
    start = year_start(on, latitude_deg)
    end = year_start(start + timedelta(days=370), latitude_deg) - ONE_DAY
    return max(start, laid_on + FIRST_SEASON), end


def in_play_band(species: str, settings: Mapping[str, float]) -> tuple[float, float]:
    """Lowest and highest nitrogen a year once in play, kg/ha."""
    key = f"feeding.in_play.{setting_name(species)}"
    return settings[f"{key}.low_n_kg_ha"], settings[f"{key}.high_n_kg_ha"]


def belongs_with(element: str, n_kg_ha: float, settings: Mapping[str, float]) -> float | None:
    """Of an element what belongs with so much nitrogen, kg/ha; None for one that has no such share."""
    short = BELONGS.get(element)
    return None if short is None else n_kg_ha * settings[f"feeding.ratio.{short}_per_n"]


def total(given: Iterable[Given], first: date, last: date) -> float:
    """What was given in a span of days, both included, kg/ha."""
    return sum(one.kg_ha for one in given if first <= one.on <= last)


def free(given: Iterable[Given], on: date) -> float:
    """What of all that was given is free by a day, kg/ha."""
    return sum(one.free_kg_ha(on) for one in given)


def still_bound(given: Iterable[Given], on: date) -> float:
    """Slow nitrogen given by a day that is still to come free, kg/ha."""
    return sum(one.kg_ha - one.free_kg_ha(on) for one in given if one.on <= on)


def running(given: Sequence[Given], first: date, last: date) -> list[tuple[date, float]]:
    """The running total at every day that changed it, from nothing on the first day to the last day."""
    steps, so_far = [(first, 0.0)], 0.0
    for one in sorted(given, key=lambda one: one.on):
        if first <= one.on <= last:
            so_far += one.kg_ha
            steps.append((one.on, so_far))
    return [*steps, (last, so_far)]
