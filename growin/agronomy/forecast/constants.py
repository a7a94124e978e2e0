"""Constants of the forecast: priors on the last criterion, curves of readings, weather to come.

A prior is said as two amounts of its clock: by the first, one green in ten has met its last
criterion, by the second nine in ten. Between them it is lognormal.
"""

from growin.agronomy.defaults import FROM_MEMORY, OUR_JUDGEMENT, Default, table

_ROOTS, _GROWTH = "°C·days", "growth days"
_BENT = "58–101 in open histories and published rules"
_AUTUMN = "about 725–1,400 from laying to the usual British opening, 540 in one limited opening"
_HALF = "turf takes roughly half the 12–16 weeks of seed: USGA 2018"
_FESCUE = "12–24 months, about 18; links fescue 24–33: STRI"


def _prior(family: str, early: float, late: float, unit: str, words: str, source: str) -> tuple:
    common = (1, 5000, OUR_JUDGEMENT, source)
    return (
        Default(f"forecast.{family}.early", early, unit, f"{words}: one in ten ready by", *common),
        Default(f"forecast.{family}.late", late, unit, f"{words}: nine in ten ready by", *common),
    )


def _share(bar: str, value: float, words: str) -> Default:
    said = f"when {words} come, as a share of the way to the last criterion"
    return Default(f"forecast.bar.{bar}", value, "", said, 0.1, 2, OUR_JUDGEMENT)


def _curve(measure: str, at_ready: float, steepness: float, alike: float, words: str) -> tuple:
    common = (OUR_JUDGEMENT,)
    return (
        Default(f"forecast.curve.{measure}.at_ready", at_ready, "",
                f"{words}: share that passes once ready", 0.5, 0.999, *common),
        Default(f"forecast.curve.{measure}.steepness", steepness, "",
                f"{words}: how sharply that share rises", 0.5, 20, *common),
        Default(f"forecast.curve.{measure}.alike", alike, "",
                f"{words}: how much the places of one set are alike", 0, 1, *common),
    )  # fmt: skip


def _one(key: str, value: float, unit: str, words: str, low: float, high: float, *mark: str) -> Default:
    return Default(f"forecast.{key}", value, unit, words, low, high, *(mark or (OUR_JUDGEMENT,)))


DEFAULTS = table(
    *_prior("turf_autumn", 420, 1000, _ROOTS, "turf laid September to February", _AUTUMN),
    *_prior("turf_in_growth", 520, 1180, _ROOTS, "turf laid March to August", _HALF),
    *_prior("seed_bent", 53, 110, _GROWTH, "bent from seed", _BENT),
    *_prior("seed_poa", 53, 110, _GROWTH, "Poa from seed", "taken as for bent"),
    *_prior("seed_fescue", 130, 330, _GROWTH, "fescue/bent from seed", _FESCUE),
    *_prior("seed_fine_fescue", 145, 375, _GROWTH, "fine fescue from seed", _FESCUE),
    _share("rooting_turf", 0.9, "roots of turf"),
    _share("rooting_seed", 0.8, "roots of seedlings"),
    _share("holes", 0.85, "holes and ball drops"),
    _share("joints", 0.75, "joints"),
    _share("cover", 0.7, "cover"),
    _share("levels", 0.75, "levels"),
    _share("height", 0.75, "the opening height held, where no height is known,"),
    _one("bar_spread", 0.2, "", "spread of criteria about those shares, as a logarithm", 0, 1),
    *_curve("hand_pull", 0.9, 4, 0.2, "hand pull"),
    *_curve("hole", 0.95, 4, 0.2, "test holes"),
    *_curve("drop", 0.93, 4, 0.2, "ball drops"),
    *_curve("cover", 0.985, 3.5, 0.03, "cover"),
    *_curve("bare_patch", 0.9, 4, 0.1, "bare patch"),
    *_curve("joint_gap", 0.985, 4, 0.2, "open joints"),
    *_curve("joint_proud", 0.985, 4, 0.2, "proud joints"),
    *_curve("lip", 0.985, 4, 0.2, "lips"),
    *_curve("dip", 0.985, 4, 0.2, "dips"),
    *_curve("ball_roll", 0.95, 4, 0.1, "rolled ball"),
    _one("curve_spread", 0.3, "", "spread of the steepness of a curve, as a logarithm", 0, 1),
    _one("roots.at_ready", 1.25, "", "mean root depth once ready, times the depth asked for", 1, 2),
    _one("roots.steepness", 1.1, "", "power of the clock by which roots deepen", 0.3, 3),
    _one("roots.core_spread", 0.25, "", "spread of cores about their mean, as a logarithm", 0.05, 1),
    _one("roots.set_spread", 0.15, "", "spread of whole sets about the green, as a logarithm", 0, 1),
    _one("reading.stray", 0.03, "", "share of answers that say nothing of the green", 0, 0.4),
    _one("reading.repeats", 0.5, "", "how much a measure's readings repeat one another's error", 0, 1),
    _one("fit.least_draws", 60, "draws", "draws that carry a forecast; weights are softened to keep them",
         5, 400),
    _one("fit.draws", 6000, "draws", "draws weighed by the readings", 200, 50_000),
    _one("pace_to_come", 0.4, "", "spread of the pace still to come, as a logarithm", 0, 1),
    _one("reading.off_days", 2, "days", "how far sets of readings stray from their usual round", 0, 6),
    _one("reading.fails", 0.12, "", "share of sets that fail by chance on a green just ready", 0, 0.8),
    _one("mend_days", 21, "days", "mean time to put right a disease, water or access not met", 1, 120),
    _one("dressing.passes", 2, "passes", "dressings before joints and levels can be met", 0, 10),
    _one("dressing.hold_days", 10, "days", "a dressing stands before joints and levels are read", 3, 42),
    _one("weather.paths", 1000, "paths", "courses of the weather tried", 20, 5000),
    _one("weather.draws", 400, "draws", "greens tried on each course of the weather", 20, 2000),
    _one("weather.memory", 0.75, "", "how far a day's departure from normal carries to the next", 0, 0.98,
         FROM_MEMORY),
    _one("weather.normals_off_c", 0.7, "°C more or less", "how far normals may be off the place", 0, 3),
    _one("weather.least_years", 3, "years", "past years of the club's own before they are used", 1, 30),
    _one("weather.block_days", 91, "days", "length of a block taken from one past season", 14, 183),
    _one("weather.shift_days", 5, "days", "how far such a block may be shifted", 0, 20),
    _one("horizon_days", 1200, "days", "how far a forecast looks", 100, 1200),
)  # fmt: skip
