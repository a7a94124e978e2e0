"""The rules together: a plainly ready green passes, a plainly unready one does not.

The chances, and the bounds of 80 % and 5 %, are the trade's own definition of *plainly
ready* and *plainly unready* for the default criteria (our judgement, tried by simulation).
"""

from datetime import date, timedelta

import numpy as np
import pytest

from growin.agronomy.criteria import DEFAULTS
from growin.agronomy.defaults import values
from growin.agronomy.facts import Evidence, GrowthFacts, HeightFacts, HeightOnDay, ReadingFacts
from growin.agronomy.verdict import READY, judge_all

SETTINGS = values(DEFAULTS)
AS_OF = date(2026, 4, 16)
READY_CHANCES = {
    "cores": 0.98,
    "points": 0.97,
    "joints": 0.001,
    "lips": 0.001,
    "dips": 0.001,
    "holes": 0.99,
    "drops": 0.98,
    "cover": 0.99,
}
UNREADY = {
    "cores": 0.30,
    "points": 0.45,
    "joints": 0.20,
    "lips": 0.20,
    "dips": 0.30,
    "holes": 0.30,
    "drops": 0.50,
    "cover": 0.93,
}
SEED_ONLY, TURF_ONLY = {"cover"}, {"points", "joints", "lips"}
TRIALS = 400
FIXED = {
    "joint_proud": [0.0] * 20,
    "bare_patch": [20.0],
    "ball_roll": [True],
    "hole_positions": [6],
    "scalping": [False],
    "disease_share": [0.0],
    "standing_water_free": [True],
    "irrigation_live": [True],
    "drains_running": [True],
    "routes_rooted": [True],
    "temporary_green_kept": [True],
}
HEIGHTS = HeightFacts(
    tuple(HeightOnDay(AS_OF - timedelta(days=back), 5.5, measured=True) for back in (20, 10, 1)), 5.5
)
GROWTH = GrowthFacts(air_c={AS_OF - timedelta(days=back): 9.0 for back in range(10)})


def _passes(rng, chance, count):
    return rng.random(count) < chance


def _placings(rng, chance, count, limit_mm):
    return [limit_mm + 2.0 if over else limit_mm / 2 for over in _passes(rng, chance, count)]


def _readings(rng, chances, deep_mm):
    drawn = {
        "rooting_depth": [deep_mm + 10 if one else deep_mm - 20 for one in _passes(rng, chances["cores"], 5)],
        "hand_pull": _passes(rng, chances["points"], 10).tolist(),
        "joint_gap": _placings(rng, chances["joints"], 20, 3),
        "lip": _placings(rng, chances["lips"], 20, 2),
        "dip": _placings(rng, chances["dips"], 12, 4),
        "hole": _passes(rng, chances["holes"], 3).tolist(),
        "drop": _passes(rng, chances["drops"], 9).tolist(),
        "cover": [{"hits": int(hits), "points": 25} for hits in rng.binomial(25, chances["cover"], 10)],
    }
    return tuple(ReadingFacts(key, AS_OF, found) for key, found in (drawn | FIXED).items())


def _share_ready(establishment, chances, seed=20260416):
    rng = np.random.default_rng(seed)
    deep_mm = 75 if establishment == "seed" else 50
    verdicts = (
        judge_all(
            Evidence(
                establishment,
                _readings(rng, chances, deep_mm),
                HEIGHTS,
                GROWTH,
                gate_on=AS_OF - timedelta(days=5),
            ),
            AS_OF,
            SETTINGS,
        )
        for _ in range(TRIALS)
    )
    return sum(one.state == READY for one in verdicts) / TRIALS


@pytest.mark.parametrize("establishment", ["turf_relaid", "seed"])
def test_a_plainly_ready_green_passes_all_bars_together_in_four_of_five(establishment):
    assert _share_ready(establishment, READY_CHANCES) >= 0.80


@pytest.mark.parametrize("one", sorted(set(UNREADY) - SEED_ONLY))
def test_turf_that_is_plainly_unready_in_one_thing_passes_in_one_of_twenty_at_most(one):
    assert _share_ready("turf_relaid", READY_CHANCES | {one: UNREADY[one]}) <= 0.05


@pytest.mark.parametrize("one", sorted(set(UNREADY) - TURF_ONLY))
def test_a_seeded_green_plainly_unready_in_one_thing_passes_in_one_of_twenty_at_most(one):
    assert _share_ready("seed", READY_CHANCES | {one: UNREADY[one]}) <= 0.05
