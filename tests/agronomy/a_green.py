"""A turfed green with every bar met, and ways to make it worse."""

from datetime import date, timedelta

from growin.agronomy.criteria import CRITERIA, DEFAULTS
from growin.agronomy.defaults import values
from growin.agronomy.facts import Evidence, GrowthFacts, HeightFacts, HeightOnDay, ReadingFacts
from growin.agronomy.verdict import judge

SETTINGS = values(DEFAULTS)
AS_OF = date(2026, 4, 16)
READ_ON = date(2026, 4, 14)
GOOD = {
    "rooting_depth": [80.0] * 5,
    "hand_pull": [True] * 10,
    "joint_gap": [1.0] * 20,
    "joint_proud": [0.0] * 20,
    "cover": [{"hits": 25, "points": 25}] * 10,
    "bare_patch": [10.0],
    "lip": [1.0] * 20,
    "dip": [2.0] * 12,
    "ball_roll": [True],
    "hole": [True] * 3,
    "drop": [True] * 9,
    "hole_positions": [6],
    "scalping": [False],
    "disease_share": [0.0],
    "standing_water_free": [True],
    "irrigation_live": [True],
    "drains_running": [True],
    "routes_rooted": [True],
    "temporary_green_kept": [True],
}


def days(count, until=AS_OF):
    return [until - timedelta(days=back) for back in range(count)]


def warm(air_c=9.0, count=10, until=AS_OF):
    return GrowthFacts(air_c=dict.fromkeys(days(count, until), air_c))


def cut_at(*pairs, opening_mm=5.5, measured=True):
    return HeightFacts(tuple(HeightOnDay(on, mm, measured) for on, mm in pairs), opening_mm)


HELD = cut_at((date(2026, 3, 30), 5.5), (date(2026, 4, 8), 5.4), (date(2026, 4, 15), 5.5))


def a_green(changed=None, *, establishment="turf_relaid", on=READ_ON, **more):
    readings = tuple(ReadingFacts(key, on, found) for key, found in (GOOD | (changed or {})).items())
    given = {"heights": HELD, "growth": warm(), "gate_on": date(2026, 4, 1)} | more
    return Evidence(establishment, readings, **given)


def found(key, evidence, as_of=AS_OF, settings=SETTINGS):
    return judge(CRITERIA[key], evidence, as_of, settings)


def states(verdict):
    return {one.criterion: one.state for one in verdict.bars}
