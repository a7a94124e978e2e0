"""What a forecast costs: ``python -m tests.bench.forecast [rounds]``.

Beside it stand the bare numpy work it rests on (running sums of every clock, one sorted look-up of
every draw on every path for each criterion, and one of every path for each step) and its readable
twin, which works through every twentieth path and is taken for as many times longer. Times are the
processor's own, the least of interleaved rounds; memory is the peak that numpy and Python ask for.
"""

import json
import sys
import tracemalloc
from collections.abc import Callable
from datetime import date
from time import process_time

import numpy as np

from growin.agronomy.climate import Climate
from growin.agronomy.forecast import forecast, looking_ahead
from growin.agronomy.forecast.crossing import Course
from growin.agronomy.forecast.weather import weather_paths
from tests.agronomy.climates import ENGLAND
from tests.agronomy.forecast import twin
from tests.agronomy.forecast.asked import FAVOURABLE, SETTINGS, green, reading

PATHS, DRAWS, DAYS = 1000, 400, 1200
MARCH = date(2026, 3, 3)
CLOCKS = 3  # of the criteria, of the leaf, and of the growth bar
ROUNDS = 7
TWIN_TAKES_EVERY = 20


def settings() -> dict[str, float]:
    size = {"forecast.weather.paths": PATHS, "forecast.weather.draws": DRAWS, "forecast.horizon_days": DAYS}
    return SETTINGS | size


READ = [
    reading("rooting_depth", MARCH, 22, 31, 28, 35, 26),
    reading("hole", MARCH, True, False, True),
]
#: Two greens with two measures read, their heights not known: one on degree days, one on growth potential.
GREENS = {
    "turf": (green(), Climate(ENGLAND)),
    "seed": (green("seed", "creeping bent", date(2025, 8, 20), 41.0), Climate(FAVOURABLE)),
}


def whole_forecast(which: str):
    facts, climate = GREENS[which]
    return forecast(facts, climate, READ, [], MARCH, settings())


def course_and_paths(which: str) -> tuple[Course, np.ndarray]:
    facts, climate = GREENS[which]
    asked = looking_ahead._question(facts, climate, READ, [], MARCH, settings(), None, False)
    course, _ = looking_ahead.course_of(asked, np.random.default_rng(1))
    return course, weather_paths(climate, MARCH, DAYS + 1, settings(), np.random.default_rng(2))


def bare_work(course: Course, temperatures_c: np.ndarray) -> Callable[[], None]:
    """Running sums and sorted look-ups alone, on every day of the horizon."""
    worth = np.ascontiguousarray(np.maximum(temperatures_c, 0).T)
    bars = int(course.last_bar.max()) + 1
    needed = [np.sort(course.needed * share) for share in np.linspace(0.7, 1, bars)]
    steps = len(course.cutting.holds) + len(course.dressing.holds)

    def work() -> None:
        for _ in range(CLOCKS):
            run = np.cumsum(worth, axis=1)
        for wanted in needed:
            for path in run:
                path.searchsorted(wanted)
        for _ in range(steps):
            for path in run:
                path.searchsorted(300.0)

    return work


def milliseconds(work: Callable[[], object]) -> float:
    began = process_time()
    work()
    return (process_time() - began) * 1000


def least_ms(works: dict[str, Callable[[], object]], rounds: int) -> dict[str, float]:
    """The quickest of interleaved rounds."""
    least = dict.fromkeys(works, float("inf"))
    for _ in range(rounds):
        for name, work in works.items():
            least[name] = min(least[name], milliseconds(work))
    return least


def peak_mb(work: Callable[[], object]) -> float:
    """The most memory that was held at once beyond what was held before, MB."""
    tracemalloc.start()
    work()
    peak = tracemalloc.get_traced_memory()[1] / 1e6
    tracemalloc.stop()
    return peak


def measured(which: str, rounds: int = ROUNDS) -> dict[str, float]:
    """Times and memory of one of :data:`GREENS`."""

    def ours():
        return whole_forecast(which)

    ours()
    course, paths = course_and_paths(which)
    least = least_ms({"forecast": ours, "bare": bare_work(course, paths)}, rounds)
    slow = TWIN_TAKES_EVERY * milliseconds(lambda: twin.crossed(paths[:, ::TWIN_TAKES_EVERY], course))
    return {
        "forecast, ms": round(least["forecast"], 1),
        "bare work, ms": round(least["bare"], 1),
        "times the bare work": round(least["forecast"] / least["bare"], 2),
        "twin, ms": round(slow),
        "times quicker than its twin": round(slow / least["forecast"], 1),
        "peak memory, MB": round(peak_mb(ours), 1),
    }


if __name__ == "__main__":
    turns = int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS
    print(json.dumps({which: measured(which, turns) for which in GREENS}, indent=2))
