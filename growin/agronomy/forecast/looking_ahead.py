"""The forecast of one green's opening: the prior, bent by its readings, crossed with weather to come."""

import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from growin.agronomy.climate import Climate
from growin.agronomy.facts import Evidence, HeightFacts, HeightOnDay, ReadingFacts
from growin.agronomy.forecast.chain import Run
from growin.agronomy.forecast.crossing import Course, cross
from growin.agronomy.forecast.family import Family, family_of
from growin.agronomy.forecast.greens_drawn import DrawnGreens, draw_greens
from growin.agronomy.forecast.growing import growth_bar
from growin.agronomy.forecast.horizon import horizon_steps
from growin.agronomy.forecast.outcome import Forecast, names_of_last, outcome
from growin.agronomy.forecast.sighting import Standing, check_readings, sightings_of, standing
from growin.agronomy.forecast.steps_to_come import cutting_to_come, dressing_to_come
from growin.agronomy.forecast.weather import weather_paths, years_on_record
from growin.agronomy.forecast.weighing import keep, log_likelihood, softened_weights
from growin.agronomy.gates import Gate, earliest_opening
from growin.agronomy.programme import pace
from growin.agronomy.programme.facts import GreenFacts

Settings = Mapping[str, float]
_DAY = timedelta(days=1)
SANDED = ("joints", "levels")


@dataclass(frozen=True)
class Question:
    """What is known of one green on a day, before anything is drawn."""

    facts: GreenFacts
    climate: Climate
    evidence: Evidence
    as_of: date
    settings: Settings
    family: Family
    gate: Gate
    bench_counts: bool = True

    @property
    def starts_on(self) -> date:
        """The first day looked at: that of the forecast, or of laying when that is still to come."""
        return max(self.as_of, self.facts.established_on)


def forecast(
    facts: GreenFacts,
    climate: Climate,
    readings: Sequence[ReadingFacts],
    heights: Sequence[HeightOnDay],
    as_of: date,
    settings: Settings,
    asks: Sequence[date] = (),
    *,
    proposed: date | None = None,
    adviser_agrees: bool = False,
    bench_counts: bool = True,
) -> Forecast:
    """When one green may open, as known on a day.

    Parameters
    ----------
    facts : GreenFacts
    climate : Climate
        Normals, and daily means measured so far; days after ``as_of`` are not looked at.
    readings, heights
        Evidence with values as :func:`growin.agronomy.measures.clean_values` gives them; what is
        later than ``as_of`` is not looked at.
    as_of : date
    settings : mapping
        Every key of :data:`growin.agronomy.settings_table.DEFAULTS`, the club's own where it has any.
    asks : sequence of date
        Days for which the chance is wanted.
    proposed : date, optional
        The opening day in mind: readings near it must be fresher, and it is asked for too.
    adviser_agrees : bool
        The club's adviser has agreed to the shorter gate for turf laid in growth.
    bench_counts : bool
        Whether the opening height is held from a cut on the bench on, or only from the first day it
        was measured on the green, as the verdict asks.

    Returns
    -------
    Forecast
        The same for the same green, day and evidence: what is drawn is seeded by green and day.

    Raises
    ------
    ImpossibleValue
        For an unknown measure, or a reading of turf before the green was laid or sown.
    """
    question = _question(
        facts, climate, readings, heights, as_of, settings, proposed, adviser_agrees, bench_counts
    )
    greens_rng, weather_rng = (np.random.default_rng(one) for one in _seed(facts, as_of).spawn(2))
    course, names = course_of(question, greens_rng)
    days = int(course.days[-1])
    paths = weather_paths(question.climate, question.starts_on, days + 1, settings, weather_rng)
    opening, last = cross(paths, course)
    return outcome(
        as_of=as_of,
        starts_on=question.starts_on,
        opening=opening,
        last=last,
        horizon_days=days,
        names=names,
        asks=[*asks, *((proposed,) if proposed else ())],
        gate=question.gate,
        season_ends_on=season_end(question),
        histories=question.family.histories,
        weather_years=years_on_record(question.climate, question.starts_on, settings),
    )


def _question(
    facts, climate, readings, heights, as_of, settings, proposed, adviser_agrees, bench_counts=True
) -> Question:
    check_readings(readings, facts.established_on)
    gate = earliest_opening(
        establishment=facts.establishment,
        species=facts.species,
        established_on=facts.established_on,
        latitude_deg=facts.latitude_deg,
        settings=settings,
        adviser_agrees=adviser_agrees or facts.adviser_agrees,
    )
    known = Climate(
        climate.normals_c, climate.spread_c, {day: one for day, one in climate.daily.items() if day <= as_of}
    )
    seen = tuple(one for one in readings if one.on <= as_of)
    evidence = Evidence(
        facts.establishment, seen, HeightFacts(tuple(heights)), gate_on=gate.day, proposed_on=proposed
    )
    family = family_of(facts, settings)
    return Question(facts, known, evidence, as_of, settings, family, gate, bench_counts)


def _seed(facts: GreenFacts, as_of: date) -> np.random.SeedSequence:
    green = (facts.establishment, facts.species, facts.established_on, facts.latitude_deg, facts.area_m2)
    return np.random.SeedSequence([zlib.crc32(repr(green).encode()), as_of.toordinal()])


def season_end(question: Question) -> date | None:
    """The first day on which the smoothed normals fall under the mean that stops growth.

    Counted from the gate, or from the day of the forecast when that is later; None where they
    never fall under it. A gate that lies in a winter looks to the end of the season after it.
    """
    start, climate = max(question.gate.day, question.as_of), question.climate
    stops_c = question.settings["climate.growth_stops_c"]

    def falls(day: date) -> bool:
        return climate.normal_c(day) < stops_c <= climate.normal_c(day - _DAY)

    return climate.first_day(start + _DAY, falls)


def course_of(question: Question, rng: np.random.Generator) -> tuple[Course, dict[int, str]]:
    """Everything the crossing needs, and the criterion behind each of its codes."""
    settings, family = question.settings, question.family
    past = past_run(question)
    stands = standing(question.evidence, family, question.as_of, settings)
    greens = greens_kept(question, rng)
    now = float(past.own[-1, 0])
    needed, last_bar = _needed(greens, stands, now, settings, rng)
    back, every, again = _reading_days(question, stands.read_on, len(needed), rng)
    waits = any(stands.waiting)
    course = Course(
        as_of=question.starts_on,
        clock=family.clock,
        leaf_clock=pace.leaf_clock(question.facts.grass, settings),
        days=horizon_steps(int(settings["forecast.horizon_days"])),
        needed=needed,
        last_bar=last_bar,
        dressed=_dressed(greens, stands, family, now),
        mended_on=_mended_on(stands, settings, len(needed), rng),
        read_back=back,
        read_every=every,
        read_again=again * waits,
        waits_for_reading=waits,
        gate_day=max((question.gate.day - question.starts_on).days, 0),
        cutting=cutting_to_come(
            question.facts,
            question.evidence.heights.heights,
            past,
            question.as_of,
            settings,
            question.bench_counts,
        ),
        dressing=dressing_to_come(question.facts, stands.over_on, past, settings),
        growth=growth_bar(question.climate, question.gate.day, question.starts_on, settings),
    )
    return course, names_of_last(family.bars, _sanded(stands, family), stands.broken)


def past_run(question: Question) -> Run:
    """Both clocks from laying or sowing to the morning of the forecast, on the one course there was."""
    start, climate = question.facts.established_on, question.climate
    days = (question.starts_on - start).days
    leaf = pace.leaf_clock(question.facts.grass, question.settings)
    runs = (
        np.cumsum([0.0, *(climate.worth(clock, start + n * _DAY) for n in range(days))])[:, None]
        for clock in (leaf, question.family.clock)
    )
    return Run(start, np.arange(days + 1), *runs)


def greens_kept(question: Question, rng: np.random.Generator) -> DrawnGreens:
    """Greens of the prior that would have shown the readings, as many as are tried on each weather."""
    settings, family = question.settings, question.family
    greens = draw_greens(family, settings, int(settings["forecast.fit.draws"]), rng)
    start = question.facts.established_on
    seen = sightings_of(question.evidence, family, question.climate, start, question.as_of, settings)
    depth_mm = settings[f"criterion.{family.bars[0]}.depth_mm"]
    likelihood = log_likelihood(greens, seen, depth_mm, settings)
    weights = softened_weights(likelihood, settings["forecast.fit.least_draws"])
    return keep(greens, weights, int(settings["forecast.weather.draws"]))


def _needed(greens: DrawnGreens, stands: Standing, now: float, settings: Settings, rng):
    """What the clock must still run, and which criterion is the last that waits.

    The pace still to come differs a little from that seen so far; on the first day it is the
    prior's own, which has that spread already.
    """
    odd = rng.standard_normal(greens.ready.shape[1])
    if not any(stands.waiting):
        return np.zeros(len(odd)), np.zeros(len(odd), dtype=int)
    waiting = np.where(np.array(stands.waiting)[:, None], greens.ready, -np.inf)
    last = waiting.max(axis=0)
    seen = np.sqrt(np.minimum(now / last, 1.0))
    return (last - now) * np.exp(settings["forecast.pace_to_come"] * seen * odd), waiting.argmax(axis=0)


def _dressed(greens: DrawnGreens, stands: Standing, family: Family, now: float) -> np.ndarray:
    """Whether joints or levels wait for sand, for each draw."""
    rows = [n for n, bar in enumerate(family.bars) if bar in SANDED and stands.waiting[n]]
    if stands.over_on is not None:
        return np.ones(greens.ready.shape[1], dtype=bool)
    return (greens.ready[rows] > now).any(axis=0)


def _sanded(stands: Standing, family: Family) -> str:
    bars = zip(family.bars, stands.waiting, strict=True)
    return next((bar for bar, waits in bars if waits and bar in SANDED), "levels")


def _mended_on(stands: Standing, settings: Settings, count: int, rng) -> np.ndarray:
    """Day by which everything broken is put right: a constant hazard for each."""
    days = rng.exponential(settings["forecast.mend_days"], (3, count))
    return np.ceil(days[: len(stands.broken)].max(axis=0, initial=0.0)).astype(int)


def _reading_days(
    question: Question, read_on: date | None, count: int, rng
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Days since the last set, between two sets, and lost to sets that fail by chance."""
    settings = question.settings
    often = (settings["criterion.fresh_days_near_opening"], settings["criterion.inspect_days"])
    off = settings["forecast.reading.off_days"]
    every = rng.integers(max(int(min(often) - off), 1), int(max(often) + off) + 1, count)
    back = (rng.random(count) * every).astype(int)
    again = (rng.geometric(1 - settings["forecast.reading.fails"], count) - 1) * every
    if read_on is not None:
        back = np.full(count, (question.starts_on - read_on).days)
    return back, every, again
