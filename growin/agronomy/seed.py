"""Seed: how much of a bag can grow, and how much of it to sow."""

from typing import NamedTuple

from growin.agronomy.impossible import ImpossibleValue, require_above, require_range


class LiveSeed(NamedTuple):
    """Share of a lot that is pure and alive, %, and the seed to sow for each part of it."""

    pure_live_percent: float
    seed_factor: float


class SeedNeeded(NamedTuple):
    """Seed as it comes in the bag: on each square metre and in all."""

    seed_g_m2: float
    seed_kg: float


def pure_live_seed(
    purity_percent: float, germination_percent: float, hard_seed_percent: float = 0.0
) -> LiveSeed:
    """Pure live seed of a lot.

    Parameters
    ----------
    purity_percent : above 0 to 100.
    germination_percent, hard_seed_percent : 0 to 100, together above 0 to 100; hard seed
        comes up later and counts as alive.

    Raises ImpossibleValue outside these ranges.
    Source: Pennsylvania State University, Calculating the price of pure live seed.
    """
    require_above("purity, %", purity_percent)
    require_range("purity, %", purity_percent, 0, 100)
    require_range("germination, %", germination_percent, 0, 100)
    require_range("hard seed, %", hard_seed_percent, 0, 100)
    alive_percent = germination_percent + hard_seed_percent
    if not 0 < alive_percent <= 100:
        raise ImpossibleValue("germination and hard seed together, %", alive_percent, "above 0 to 100")
    pure_live_percent = purity_percent * alive_percent / 100
    return LiveSeed(pure_live_percent, 100 / pure_live_percent)


def seed_quantity(
    live_rate_g_m2: float,
    purity_percent: float,
    germination_percent: float,
    area_m2: float,
    hard_seed_percent: float = 0.0,
) -> SeedNeeded:
    """Seed to weigh out for a rate of live seed.

    Parameters
    ----------
    live_rate_g_m2, area_m2 : at least 0; the others as :func:`pure_live_seed`.

    Raises ImpossibleValue outside these ranges.
    Source: Pennsylvania State University, Calculating the price of pure live seed.
    """
    require_range("rate of live seed, g/m²", live_rate_g_m2, 0)
    require_range("area, m²", area_m2, 0)
    lot = pure_live_seed(purity_percent, germination_percent, hard_seed_percent)
    seed_g_m2 = live_rate_g_m2 * lot.seed_factor
    return SeedNeeded(seed_g_m2, seed_g_m2 * area_m2 / 1000)
