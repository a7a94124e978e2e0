"""Which prior a green falls under, the clock it runs on, and the criteria that ripen on it."""

from collections.abc import Mapping
from dataclasses import dataclass

from growin.agronomy.climate import DayClock
from growin.agronomy.programme import pace
from growin.agronomy.programme.facts import GreenFacts
from growin.agronomy.species import FESCUE

#: Criteria that ripen on the clock, in order of weight; the order of rows in every array. Height is
#: one of them only as long as no height of cut is known.
TURF_BARS = ("rooting_turf", "holes", "joints", "levels", "height")
SEED_BARS = ("rooting_seed", "holes", "cover", "levels", "height")
#: Criteria that steps of cutting, the weather or somebody's repair decide, not the clock.
MENDED_BARS = ("water", "disease", "surrounds")


@dataclass(frozen=True)
class Family:
    """Greens that share a prior.

    ``key`` names it among the settings; ``bars`` are the criteria that ripen on ``clock``;
    ``histories`` counts the open histories it was set from, beside published durations.
    """

    key: str
    bars: tuple[str, ...]
    clock: DayClock
    histories: int


_HISTORIES = {"turf_autumn": 1, "seed_bent": 3}


def family_of(facts: GreenFacts, settings: Mapping[str, float]) -> Family:
    """The family of one green: species, establishment and season of laying decide.

    Turf runs on warmth for roots, seed on growth potential: the clocks on which places agree
    best at the same stage. Both are settings (``pace.…``).
    """
    key = _key_of(facts)
    clock = pace.root_clock(settings) if facts.is_turf else pace.seed_clock(settings)
    return Family(key, TURF_BARS if facts.is_turf else SEED_BARS, clock, _HISTORIES.get(key, 0))


def _key_of(facts: GreenFacts) -> str:
    if facts.is_turf:
        return "turf_autumn" if facts.is_autumn_turf else "turf_in_growth"
    return "seed_fine_fescue" if facts.species == FESCUE else f"seed_{facts.grass.group}"
