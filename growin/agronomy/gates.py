"""The earliest day a green may open, whatever the readings say.

Gates are our own judgement from trade practice: turf laid over winter needs both its weeks
and the spring; turf in growth and seed need their weeks. A club may change any of them. A gate
not yet passed is a bar not met, with its date.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy.defaults import OUR_JUDGEMENT, Default, table
from growin.agronomy.season import AUTUMN, next_local_day, season_of_laying
from growin.agronomy.species import is_turf, species_named

#: The constant that an adviser's agreement brings in.
AGREED = "gates.turf_in_growth.agreed_weeks"


def _weeks(key: str, value: float, words: str, source: str = "") -> Default:
    return Default(f"gates.{key}", value, "weeks", words, 0, 104, OUR_JUDGEMENT, source)


DEFAULTS = table(
    _weeks("turf_autumn.weeks", 16, "turf laid September to February: least time down before opening"),
    Default(
        "gates.turf_autumn.month",
        4,
        "month",
        "turf laid September to February: not before the first of this northern month",
        1,
        12,
        OUR_JUDGEMENT,
        "Britain opens mid to late April: BIGGA 2004",
    ),
    _weeks(
        "turf_in_growth.weeks",
        8,
        "turf laid March to August: least time down before opening",
        "turf takes roughly half the 12–16 weeks of seed: USGA Green Section 2018",
    ),
    _weeks(
        AGREED.removeprefix("gates."),
        4,
        "turf laid March to August, where the club's adviser agrees in writing",
    ),
    _weeks(
        "seed_bent.weeks",
        10,
        "bent from seed: least time from sowing",
        "12–16 weeks of favourable weather: USGA Green Section 2008, 2018, 2019",
    ),
    _weeks("seed_fescue.weeks", 40, "fescue/bent from seed: least time from sowing"),
    _weeks("seed_poa.weeks", 10, "Poa from seed: least time from sowing", "taken as for bent"),
)


@dataclass(frozen=True)
class Gate:
    """The earliest ``day`` of opening and the rule behind it in words."""

    day: date
    words: str


def earliest_opening(
    *,
    establishment: str,
    species: str,
    established_on: date,
    latitude_deg: float,
    settings: Mapping[str, float],
    adviser_agrees: bool = False,
) -> Gate:
    """The gate of one green.

    Parameters
    ----------
    establishment, species : str
        Keys of :mod:`growin.agronomy.species`.
    settings : mapping
        Values of :data:`DEFAULTS`.
    adviser_agrees : bool
        The club's adviser has agreed to the shorter gate for turf laid in growth.

    Raises
    ------
    ValueError
        For an unknown establishment or species.
    """
    group = species_named(species).group
    if not is_turf(establishment):
        return _weeks_gate(established_on, settings[f"gates.seed_{group}.weeks"], "from sowing")
    if not may_be_shorter(establishment, established_on, latitude_deg):
        return _autumn_gate(established_on, latitude_deg, settings)
    if adviser_agrees:
        return _weeks_gate(established_on, settings[AGREED], "down, as the adviser agrees")
    return _weeks_gate(established_on, settings["gates.turf_in_growth.weeks"], "down")


def may_be_shorter(establishment: str, established_on: date, latitude_deg: float) -> bool:
    """Whether the adviser's agreement shortens the gate: for turf laid in growth, nothing else."""
    return is_turf(establishment) and season_of_laying(established_on, latitude_deg) != AUTUMN


def _weeks_gate(since: date, weeks: float, ending: str) -> Gate:
    return Gate(since + timedelta(days=round(weeks * 7)), f"at least {weeks:g} weeks {ending}")


def _autumn_gate(laid: date, latitude_deg: float, settings: Mapping[str, float]) -> Gate:
    weeks = _weeks_gate(laid, settings["gates.turf_autumn.weeks"], "down")
    spring = next_local_day(laid, int(settings["gates.turf_autumn.month"]), 1, latitude_deg)
    return Gate(max(weeks.day, spring), f"{weeks.words} and not before {spring.day} {spring:%B}")
