"""Greens that grow in otherwise than the forecast believes, to see how honest it is.

Nothing here comes from the model: another response to temperature (beta), ageing of vigour from month
to month, straight lines, Gompertz curves and decaying millimetres instead of its logistic and
hazard, slow patches, setbacks, spells of weather instead of autocorrelated noise, observers
with a bias, readings left out. Durations are drawn from published ranges as triangles over favourable
days, not as lognormals. The green opens on the first set of readings by which every
criterion has passed within a fortnight, after the gate, in growth, its height held.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from growin.agronomy.climate import Climate
from growin.agronomy.facts import HeightOnDay, ReadingFacts
from growin.agronomy.programme.facts import GreenFacts
from tests.bench.other_weather import known_climate, true_weather

DAY = timedelta(days=1)
LONGEST_DAYS = 1600
YEARS_BEFORE = 5

#: Means by month, °C, from memory; latitude; what is usually laid there.
PLACES = {
    "northern England": ((4.0, 4.3, 6.2, 8.5, 11.5, 14.4, 16.5, 16.3, 13.9, 10.4, 6.8, 4.4), 54),
    "southern England": ((5.1, 5.3, 7.5, 10.0, 13.1, 16.2, 18.4, 18.1, 15.4, 11.8, 8.1, 5.5), 51),
    "eastern Scotland": ((3.6, 3.9, 5.9, 8.0, 10.6, 13.3, 15.2, 15.0, 12.8, 9.4, 6.0, 3.6), 56),
    "Ireland": ((5.3, 5.4, 6.8, 8.5, 11.2, 13.8, 15.6, 15.4, 13.4, 10.5, 7.4, 5.6), 53),
    "northern US": ((-5, -4, 1.5, 8, 14.5, 19.5, 22, 21, 17, 10.5, 4, -2), 41),
    "US transition": ((2, 3.5, 8, 13.5, 18.5, 23, 25.2, 24.5, 21, 14.7, 9, 4), 38),
    "Canterbury": ((17, 16.8, 15, 12, 9, 6.3, 5.8, 7, 9.3, 11.5, 13.4, 15.6), -43),
}
#: Kind: establishment, grasses, places, months of laying (northern), how often, triangle of favourable days.
KINDS = {
    "autumn turf": ("turf_relaid", ("fescue/bent", "annual meadow grass/bent", "creeping bent"),
                    ("northern England", "southern England", "eastern Scotland", "Ireland", "Canterbury"),
                    (9, 10, 11, 12), 0.35, (24, 36, 70)),
    "turf in growth": ("turf_supplied", ("creeping bent", "annual meadow grass/bent"),
                       ("northern England", "southern England", "northern US", "US transition"),
                       (3, 4, 5, 6, 7), 0.2, (34, 48, 78)),
    "bent seed": ("seed", ("creeping bent",),
                  ("northern US", "US transition", "southern England", "Canterbury"),
                  (4, 5, 6, 8, 9), 0.3, (62, 84, 135)),
    "fescue seed": ("seed", ("fescue/bent",), ("northern England", "eastern Scotland", "Ireland"),
                    (4, 5, 8, 9), 0.15, (130, 240, 620)),
}  # fmt: skip
TURF_NEEDS = {
    "hand_pull": ("pull", 10), "rooting_depth": ("roots", 5), "hole": ("holes", 3), "drop": ("holes", 9),
    "joint_gap": ("joints", 20), "lip": ("levels", 20), "dip": ("levels", 12),
}  # fmt: skip
SEED_NEEDS = {
    "rooting_depth": ("roots", 5), "hole": ("holes", 3), "drop": ("holes", 9),
    "cover": ("cover", 10), "dip": ("levels", 12),
}  # fmt: skip
LIMITS_MM = {"joint_gap": 3, "lip": 2, "dip": 4}
FRESH_DAYS = 14


@dataclass(frozen=True)
class OtherGreen:
    """One green: what the club knows of it, and the day it really opened."""

    kind: str
    facts: GreenFacts
    climate: Climate
    readings: tuple[ReadingFacts, ...]
    heights: tuple[HeightOnDay, ...]
    opened_on: date

    @property
    def sets(self) -> list[date]:
        """Days of sets of readings before the one it opened on."""
        return sorted({one.on for one in self.readings if one.on < self.opened_on})


@dataclass(frozen=True)
class Habit:
    """How one green is read: its observer's ``bias``, share of places that lag, sets left incomplete.

    ``asked_mm``: depth of roots asked for; ``every``: days between two sets once it is near.
    """

    bias: float
    slow: float
    left_out: float
    asked_mm: float
    every: int


def other_greens(count: int, seed: int = 1) -> Iterator[OtherGreen]:
    """``count`` greens; those that never open within four years are left out and drawn anew."""
    rng = np.random.default_rng(seed)
    made = 0
    while made < count:
        green = _green(rng)
        if green is not None:
            made += 1
            yield green


# ---- how it grows ------------------------------------------------------------------------------------


def _beta(mean_c: np.ndarray, least: float, best: float, most: float) -> np.ndarray:
    """Response to temperature after Yan & Hunt 1999: 0 at both ends, 1 at the best."""
    inside = np.clip(mean_c, least, most)
    power = (best - least) / (most - best)
    return (most - inside) / (most - best) * ((inside - least) / (best - least)) ** power


def _progress(weather: np.ndarray, turf: bool, days_needed: float, rng) -> np.ndarray:
    """Way gone by each morning, 1 when the last criterion is due; vigour drifts, some are set back."""
    pace = _beta(weather, -2, 19, 36) if turf else _beta(weather, 2, 21, 36)
    drift = np.exp(np.repeat(rng.normal(0, 0.12, len(weather) // 30 + 1), 30)[: len(weather)])
    way = np.append(0.0, np.cumsum(pace * drift)[:-1]) / days_needed
    if rng.random() < 0.15:
        at = np.searchsorted(way, rng.uniform(0.3, 0.95))
        way[at:] = np.maximum(way[at:] - rng.uniform(0.05, 0.2), 0.05)
    return way


def _values(measure: str, count: int, way: float, habit: Habit, rng) -> list:
    """Values of one set; every place has a way of its own, some lag behind."""
    ways = np.where(rng.random(count) < habit.slow, 0.8 * way, way)
    if measure == "rooting_depth":
        return _depths(ways, habit, rng)
    if measure == "cover":
        shares = np.clip(1 - 0.6 * np.exp(-3.9 * ways) * (1 - np.clip(ways, 0, 0.9)), 0, 1)
        return [{"hits": int(rng.binomial(25, one)), "points": 25} for one in shares]
    if measure in LIMITS_MM:
        return _millimetres(LIMITS_MM[measure], ways, habit.bias, rng)
    return [bool(one) for one in rng.random(count) < _holding(measure, ways) + 0.04 * habit.bias]


def _holding(measure: str, ways: np.ndarray) -> np.ndarray:
    """Share of places that hold: turf by a straight line, holes by a step."""
    if measure == "hand_pull":
        return np.clip((ways - 0.2) / 0.8 * 0.94, 0, 0.985)
    return 1 / (1 + np.exp(-7.5 * (ways - 0.62)))


def _depths(ways: np.ndarray, habit: Habit, rng) -> list:
    """Gompertz towards nearly twice what is asked, cores 20 % apart."""
    mean_mm = habit.asked_mm * 1.85 * np.exp(-2.6 * np.exp(-1.9 * ways)) * (1 + 0.1 * habit.bias)
    return [round(float(one)) for one in mean_mm * rng.normal(1, 0.2, len(ways)).clip(0.3)]


def _millimetres(limit_mm: float, ways: np.ndarray, bias: float, rng) -> list:
    """Decaying openings and steps, uneven from place to place, read to half a millimetre."""
    mean_mm = limit_mm * (0.42 + 1.6 * np.clip(1 - ways, 0, 1) ** 1.5) * (1 - 0.05 * bias)
    return [round(float(one) * 2) / 2 for one in mean_mm * rng.gamma(9, 1 / 9, len(ways))]


def _passes(measure: str, values: list, asked_mm: float) -> bool:
    """The default rule of each criterion, written out again."""
    if measure == "rooting_depth":
        return sum(one >= asked_mm for one in values) >= 4
    if measure == "cover":
        return sum(one["hits"] for one in values) >= 245
    if measure in LIMITS_MM:
        return max(values) <= LIMITS_MM[measure]
    return sum(values) >= {"hand_pull": 8, "hole": 3, "drop": 8}[measure]


# ---- the story of one green --------------------------------------------------------------------------


def _laid_on(months, latitude: float, rng) -> date:
    month = int(rng.choice(months))
    month = month if latitude > 0 else (month + 5) % 12 + 1
    return date(2021, month, 1) + int(rng.integers(0, 28)) * DAY


def _gate_on(kind: str, laid: date, latitude: float) -> date:
    """The trade's hard gates, written out again."""
    weeks = {"autumn turf": 16, "turf in growth": 8, "bent seed": 10, "fescue seed": 40}[kind]
    gate = laid + 7 * weeks * DAY
    if kind != "autumn turf":
        return gate
    month = 4 if latitude > 0 else 10
    spring = date(laid.year + (laid.month >= month), month, 1)
    return max(gate, spring)


def _green(rng) -> OtherGreen | None:
    kinds = list(KINDS)
    kind = str(rng.choice(kinds, p=[KINDS[one][4] for one in kinds]))
    establishment, grasses, places, months, _, triangle = KINDS[kind]
    normals, latitude = PLACES[str(rng.choice(places))]
    laid = _laid_on(months, latitude, rng)
    first = laid - 365 * YEARS_BEFORE * DAY
    weather = true_weather(normals, first, 365 * YEARS_BEFORE + LONGEST_DAYS, rng)
    season = weather[365 * YEARS_BEFORE :]
    way = _progress(season, "turf" in kind, rng.triangular(*triangle), rng)
    facts = GreenFacts(400, establishment, str(rng.choice(grasses)), laid, latitude)
    heights, held = _cuts(kind, laid, way, rng)
    story = _read_until_open(kind, laid, latitude, season, way, held, rng)
    if story is None:
        return None
    readings, opened = story
    climate = known_climate(normals, weather[: (opened - first).days], first, laid, rng)
    return OtherGreen(kind, facts, climate, tuple(readings), heights, opened)


def _cuts(kind: str, laid: date, way: np.ndarray, rng) -> tuple[tuple[HeightOnDay, ...], date]:
    """Heights on the way down and the day from which the opening height has been held a fortnight."""
    at_opening = int(np.searchsorted(way, rng.uniform(0.6, 0.97)))
    started = int(np.searchsorted(way, 0.15))
    days = np.linspace(started, at_opening, 6).astype(int)
    heights = np.linspace(11, 5, 6)
    cuts = [*zip(days, heights, strict=True), *((n, 4.5) for n in range(at_opening + 7, at_opening + 200, 7))]
    known = tuple(HeightOnDay(laid + int(day) * DAY, round(float(one), 1)) for day, one in cuts)
    return known if rng.random() < 0.6 else (), laid + (at_opening + 14) * DAY


def _next_set(kind: str, day: date, gate: date, passing: float, habit: Habit, rng) -> date:
    """The day of the next set: the club's own habit near the gate or when most passes, else now and then."""
    usual = 45 if kind == "fescue seed" else 24
    near = passing > 0.6 or (day >= gate - 42 * DAY and kind != "fescue seed")
    often = habit.every + rng.integers(-2, 3) if near else rng.integers(usual // 2, usual * 3 // 2)
    return day + int(often) * DAY


def _read_until_open(kind, laid, latitude, season, way, held, rng):
    """Readings up to the set it opens on, and that day; None when it never does."""
    turf, gate = "turf" in kind, _gate_on(kind, laid, latitude)
    needs = TURF_NEEDS if turf else SEED_NEEDS
    ripe, habit = _ripening(needs, rng), _habit(turf, rng)
    passed_on: dict[str, date] = {}
    readings: list[ReadingFacts] = []
    day = laid + int(rng.integers(14, 45)) * DAY
    while (day - laid).days < len(season) - 1:
        at = (day - laid).days
        new = _one_set(day, needs, way[at], ripe, habit, rng)
        readings += new
        _note(passed_on, new, habit)
        fresh = sum((day - passed_on.get(one, date.min)).days <= FRESH_DAYS for one in needs) / len(needs)
        if fresh == 1 and day >= max(gate, held) and _growing(season, at, (gate - laid).days):
            return readings, day
        day = _next_set(kind, day, gate, fresh, habit, rng)
    return None


def _one_set(day: date, needs: dict, way: float, ripe: dict, habit: Habit, rng) -> list[ReadingFacts]:
    """One set; far from the end some measures are left out."""
    taken = [one for one in needs if way > 0.85 or rng.random() >= habit.left_out]
    return [
        ReadingFacts(one, day, _values(one, needs[one][1], way / ripe[needs[one][0]], habit, rng))
        for one in taken
    ]


def _note(passed_on: dict[str, date], new: list[ReadingFacts], habit: Habit) -> None:
    for one in new:
        passed_on.pop(one.measure, None)
        if _passes(one.measure, one.values, habit.asked_mm):
            passed_on[one.measure] = one.on


def _habit(turf: bool, rng) -> Habit:
    slow = rng.uniform(0.05, 0.2) if rng.random() < 0.3 else 0.0
    every = int(rng.choice((7, 10, 14)))
    return Habit(float(rng.normal(0, 1)), slow, rng.uniform(0, 0.35), 50 if turf else 75, every)


def _ripening(needs: dict, rng) -> dict[str, float]:
    """What share of the way each criterion takes; one of them the whole."""
    shares = {ripens: float(rng.uniform(0.5, 1)) for ripens, _ in needs.values()}
    shares[str(rng.choice(list(shares)))] = 1.0
    return shares


def _growing(season: np.ndarray, at: int, gate: int) -> bool:
    """A week at 8 °C since the gate, not followed by one under 6."""
    growing = False
    for day in range(max(gate, 6), at + 1):
        week = season[day - 6 : day + 1].mean()
        growing = week >= 8 or (growing and week >= 6)
    return growing
