"""The forecast once more, to be read: one green, one path, one day after another, in plain loops.

It has the same cleverness as the arrays (bisection, running sums, the last criterion only) and shares
none of their code, so that where both agree the arrays do what is written here.
"""

import math
from bisect import bisect_left

from growin.agronomy.forecast.crossing import DRESSING, GATE, GROWTH, HEIGHT, MENDED, NOTHING
from growin.agronomy.forecast.curves import DEPTH, HAZARDS


def crossed(temperatures_c, course) -> tuple[list[list[int]], list[list[int]]]:
    """Day of opening and what came last, for every path and draw."""
    paths = [[float(one) for one in path] for path in temperatures_c.T]
    answers = [_one_path(path, course) for path in paths]
    return [days for days, _ in answers], [lasts for _, lasts in answers]


def _one_path(path: list[float], course) -> tuple[list[int], list[int]]:
    looked_at = [int(day) for day in course.days]
    leaf = _run(path, course.leaf_clock, looked_at)
    own = _run(path, course.clock, looked_at)
    gate = bisect_left(looked_at, course.gate_day)
    growing = _next_growing(path, course.growth, looked_at, gate)
    dressed = _end_of_chain(course.dressing, course.as_of, looked_at, leaf, own)
    cut = _end_of_chain(course.cutting, course.as_of, looked_at, leaf, own)
    days, lasts = [], []
    for draw in range(len(course.needed)):
        step, last = bisect_left(own, course.needed[draw]), int(course.last_bar[draw])
        mended = bisect_left(looked_at, course.mended_on[draw])
        others = ((dressed if course.dressed[draw] else 0, DRESSING), (mended, MENDED), (cut, HEIGHT))
        for until, what in (*others, (gate, GATE)):
            if until > step:
                step, last = until, what
        opening = growing[step]
        if opening > step:
            last = GROWTH
        if opening == 0 and not course.waits_for_reading:
            last = NOTHING
        days.append(_day_read(opening, draw, looked_at, course))
        lasts.append(last)
    return days, lasts


def _run(path: list[float], clock, looked_at: list[int]) -> list[float]:
    run, total = [0.0], 0.0
    for mean_c in path:
        total += _worth(mean_c, clock)
        run.append(total)
    return [run[day] for day in looked_at]


def _worth(mean_c: float, clock) -> float:
    if clock.kind == "potential":
        return clock.factor * math.exp(-0.5 * ((mean_c - clock.point_c) / clock.width_c) ** 2)
    return clock.factor * max(mean_c - clock.point_c, 0.0)


def _next_growing(path: list[float], bar, looked_at: list[int], gate: int) -> list[int]:
    growing, answers = bar.growing_now, []
    means = _means(path, bar)
    for step, day in enumerate(looked_at):
        if means[day] >= bar.air_c and step >= gate:
            growing = True
        elif means[day] < bar.lost_under_c:
            growing = False
        answers.append(growing)
    following = [len(looked_at)] * (len(looked_at) + 1)
    for step in range(len(looked_at) - 1, -1, -1):
        following[step] = step if answers[step] else following[step + 1]
    return following


def _means(path: list[float], bar) -> list[float]:
    total, sums = 0.0, [0.0]
    for mean_c in [*bar.before_c, *path]:
        total += mean_c
        sums.append(total)
    return [(sums[day + bar.days] - sums[day]) / bar.days for day in range(len(path))]


def _end_of_chain(chain, start, looked_at: list[int], leaf: list[float], own: list[float]) -> int:
    step, day = 0, -chain.stood_days
    leaf_then, own_then = -chain.stood_leaf, -chain.stood_own
    for hold in chain.holds:
        season = (hold.not_before - start).days if hold.not_before else 0
        step = max(step, bisect_left(looked_at, max(day + hold.days, season)))
        if hold.leaf:
            step = max(step, bisect_left(leaf, leaf_then + hold.leaf))
        if hold.own:
            step = max(step, bisect_left(own, own_then + hold.own))
        if step == len(looked_at):
            return step
        day, leaf_then, own_then = looked_at[step], leaf[step], own[step]
    return step


def _day_read(opening: int, draw: int, looked_at: list[int], course) -> int:
    beyond = looked_at[-1] + 1
    if opening == 0 and not course.waits_for_reading:
        return 0
    if opening == len(looked_at):
        return beyond
    back, every = int(course.read_back[draw]), int(course.read_every[draw])
    sets = math.ceil(max(looked_at[opening] + back, 1) / every)
    return min(sets * every - back + int(course.read_again[draw]), beyond)


# ---- readings ----------------------------------------------------------------------------------------


def log_likelihood(greens, sightings, depth_mm: float, settings) -> list[float]:
    """Logarithm of the likelihood of the readings, green by green."""
    return [
        sum(_of_one(greens, draw, one, sightings, depth_mm, settings) for one in sightings)
        for draw in range(greens.ready.shape[1])
    ]


def _of_one(greens, draw: int, one, sightings, depth_mm: float, settings) -> float:
    repeats = sum(other.measure == one.measure for other in sightings)
    weight = 1 / (1 + (repeats - 1) * settings["forecast.reading.repeats"])
    way = max(math.log(max(one.clock, 1e-9) / greens.ready[one.bar][draw]), -12.0)
    steepness = greens.steepness[one.measure][draw]
    if one.measure == DEPTH:
        return weight * _of_depth(one, way, steepness, depth_mm, settings)
    return weight * _of_count(one, way, steepness, settings)


def _of_count(one, way: float, steepness: float, settings) -> float:
    at_ready = settings[f"forecast.curve.{one.measure}.at_ready"]
    if one.measure in HAZARDS:
        share = 1 - (1 - at_ready) ** math.exp(min(steepness * way, 50.0))
    else:
        share = 1 / (1 + (1 - at_ready) / at_ready * math.exp(-steepness * way))
    stray = settings["forecast.reading.stray"]
    passing = stray + (1 - 2 * stray) * share
    told = one.passed * math.log(passing) + (one.places - one.passed) * math.log(1 - passing)
    return told / (1 + (one.places - 1) * settings[f"forecast.curve.{one.measure}.alike"])


def _of_depth(one, way: float, steepness: float, depth_mm: float, settings) -> float:
    expected = max(depth_mm * settings["forecast.roots.at_ready"] * math.exp(steepness * way), 2.0)
    set_spread, core_spread = (settings[f"forecast.roots.{key}_spread"] for key in ("set", "core"))
    variance = set_spread**2 + core_spread**2 / one.places
    off = math.log(max(one.mean_mm, 2.0) / expected)
    return -2.5 * math.log(1 + off**2 / (4 * variance))
