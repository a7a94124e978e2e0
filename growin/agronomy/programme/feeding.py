"""The chain of feeding: nothing until rooted and warm, light at first, by the pace of growth, then less."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy import feeding, season_nutrition
from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, step_on

_YEAR = timedelta(days=365)
CHAIN = "feed"
_ROOTED_SOURCE = "nothing until rooted: Maryland golf best management practices; doses common practice"


@dataclass(frozen=True)
class Dose:
    """One feed to come: its day, nitrogen in kg/ha, which rule of the chain gave it, and whether the club's
    closed time has moved it."""

    on: date
    n_kg_ha: float
    rule: str
    is_moved: bool = False


_WORDS = {
    "first": (
        "First light feed",
        "the turf has rooted and the soil at 100 mm has held 6 °C for a week",
        _ROOTED_SOURCE,
        COMMON_PRACTICE,
    ),
    "second": (
        "Second feed, the fuller one",
        "the 7-day mean air has reached 8 °C and growth is under way",
        "10–15 kg N/ha once the week reaches 8 °C",
        COMMON_PRACTICE,
    ),
    "turf": (
        "Light feed",
        "turf that knits and is cut needs little and often, by the pace of growth",
        "5–8 kg N/ha every 7–10 days",
        COMMON_PRACTICE,
    ),
    "seedlings": (
        "Feed the seedlings",
        "steady feeding until the seed covers; the trials beside the plan show the range",
        "middle rate of the Michigan State University trial 2013–14 for bent",
        OUR_JUDGEMENT,
    ),
    "covered": (
        "Feed at the lower rate",
        "the seed covers, so feeding tapers to what the sward will be kept on",
        "8–12 kg N/ha a fortnight",
        OUR_JUDGEMENT,
    ),
}


def steps(plan: Plan) -> list[Step]:
    """Every feed of the programme, numbered in order."""
    return [_step(plan, number, dose) for number, dose in enumerate(doses(plan), 1)]


def doses(plan: Plan) -> list[Dose]:
    """Feeds as long as the year's nitrogen stays within its band: first season, then in play.

    A feed that was done stands on its day, and the next follows from there; what was given counts
    as it was given.
    """
    made, given = [], [Dose(on, n_kg_ha, "given") for on, n_kg_ha in plan.done.feeds]
    chain = _turf_chain(plan) if plan.facts.is_turf else _seed_chain(plan)
    turn = chain.first()
    while turn and turn[0] <= plan.horizon:
        placed = plan.done.placed(CHAIN, len(made) + 1, turn[0], chain.interval)
        on = _allowed(plan, placed, len(made) + 1)
        dose = Dose(on, *chain.dose(on, turn[1]), on != placed)
        if plan.done.is_past(CHAIN, on):
            made.append(dose)
        elif _within_band(plan, given, dose):
            given.append(dose)
            made.append(dose)
        turn = chain.after(dose)
    return made


def _allowed(plan: Plan, day: date, number: int) -> date:
    """The day itself, or the first after the closed time that is warm enough; what was done stands."""
    if plan.done.is_past(CHAIN, day) or f"{CHAIN}-{number:02d}" in plan.done.steps:
        return day
    return after_closed_time(plan, day)


def after_closed_time(plan: Plan, day: date) -> date:
    """The day itself outside the club's closed time, else the first after it that is warm enough to feed."""
    never = plan.horizon + timedelta(days=1)
    while plan.facts.is_closed(day) and day <= plan.horizon:
        opens = plan.feeding_from(day)
        day = _again(plan, opens) if opens else never
    return day


def _within_band(plan: Plan, given: list[Dose], dose: Dose) -> bool:
    first_year = not given or dose.on < given[0].on + _YEAR
    year = sum(one.n_kg_ha for one in given if one.on > dose.on - _YEAR)
    return year + dose.n_kg_ha <= _most_a_year(plan, first_year)


def _most_a_year(plan: Plan, first_year: bool) -> float:
    facts = plan.facts
    if first_year:
        return feeding.season_band(facts.establishment, facts.species, plan.settings)[1]
    return season_nutrition.in_play_band(facts.species, plan.settings)[1]


def _warm_enough(plan: Plan, day: date | None) -> date | None:
    """The first day from ``day`` on which the soil has held and the green does not rest."""
    if day is None:
        return None
    days = int(plan.settings["feeding.soil_held_days"])
    floor = plan.settings["feeding.soil_floor_c"]
    held = plan.climate.soil_held(plan.not_resting(day), floor, days)
    return held and (held if not plan.resting(held) else _warm_enough(plan, plan.not_resting(held)))


def _again(plan: Plan, day: date) -> date:
    """The day itself where it may be fed, else the next on which it may."""
    if plan.resting(day) or not feeding.may_feed(plan.climate.soil_c(day), plan.settings):
        return _warm_enough(plan, day) or plan.horizon + timedelta(days=1)
    return day


@dataclass(frozen=True)
class _Chain:
    """How a chain of feeds runs: its first (day, rule), the days between, a dose, and what follows it."""

    first: Callable[[], tuple[date, str] | None]
    interval: Callable[[date], float]
    dose: Callable[[date, str], tuple[float, str]]
    after: Callable[[Dose], tuple[date, str] | None]


def _turf_chain(plan: Plan) -> _Chain:
    def first():
        day = _warm_enough(plan, plan.rooted)
        return day and (day, "first")

    def interval(day: date) -> float:
        return feeding.turf_interval_days(plan.vigour(day), plan.settings)

    return _Chain(
        first, interval, lambda on, rule: (_turf_dose(plan, on, rule), rule), lambda dose: _after(plan, dose)
    )


def _turf_dose(plan: Plan, day: date, rule: str) -> float:
    if rule in ("first", "second"):
        return _light_if_cool(plan, day, plan.settings[f"feeding.turf.{rule}_dose_n_kg_ha"])
    return _light_if_cool(plan, day, feeding.turf_dose_n_kg_ha(plan.vigour(day), plan.settings))


def _after(plan: Plan, dose: Dose) -> tuple[date, str]:
    interval = timedelta(days=feeding.turf_interval_days(plan.vigour(dose.on), plan.settings))
    if dose.rule != "first":
        return _again(plan, dose.on + interval), "turf"
    warm = plan.climate.first_week_at(dose.on + interval, plan.settings["feeding.turf.second_air_c"])
    warm = warm and plan.not_resting(warm)
    return (_again(plan, warm) if warm else plan.horizon + timedelta(days=1)), "second"


def _seed_chain(plan: Plan) -> _Chain:
    week, fortnight = feeding.seed_rates_n_kg_ha(plan.facts.species, plan.settings)

    def covers(day: date) -> bool:
        return plan.covered is not None and day >= plan.covered

    def first():
        day = _warm_enough(plan, plan.emerged)
        return day and (day, "seedlings")

    def interval(day: date) -> float:
        return 14 if covers(day) else 7

    def dose(on: date, _) -> tuple[float, str]:
        rate, rule = (fortnight, "covered") if covers(on) else (week, "seedlings")
        return _light_if_cool(plan, on, rate), rule

    return _Chain(
        first,
        interval,
        dose,
        lambda one: (_again(plan, one.on + timedelta(days=interval(one.on))), "seedlings"),
    )


def _light_if_cool(plan: Plan, day: date, n_kg_ha: float) -> float:
    if plan.climate.soil_c(day) < plan.settings["feeding.light_under_c"]:
        return min(n_kg_ha, plan.settings["feeding.light_dose_n_kg_ha"])
    return n_kg_ha


def moved_words(plan: Plan) -> str:
    """Why a feed stands later than growth alone would have it."""
    return f"; moved out of the club's closed time, {plan.facts.closed_words}"


def cautions(plan: Plan) -> tuple[str, ...]:
    """What to mind when this green is fed."""
    distance = plan.facts.distance_to_water_m
    near = distance is not None and distance <= plan.settings["feeding.water_distance_m"]
    return ("fertiliser", "fertiliser_near_water") if near else ("fertiliser",)


def _step(plan: Plan, number: int, dose: Dose) -> Step:
    what, why, source, mark = _WORDS[dose.rule]
    return step_on(
        dose.on,
        f"feed-{number:02d}",
        "feed",
        amount=dose.n_kg_ha,
        unit=feeding.RATE,
        n_kg_ha=dose.n_kg_ha,
        what=what,
        how=how(plan, dose),
        why=why + (moved_words(plan) if dose.is_moved else ""),
        source=source,
        mark=mark,
        cautions=cautions(plan),
        gate="" if number > 1 else _first_gate(plan),
    )


def _first_gate(plan: Plan) -> str:
    floor, days = plan.settings["feeding.soil_floor_c"], plan.settings["feeding.soil_held_days"]
    taken = "rooted" if plan.facts.is_turf else "seedlings through"
    return f"{taken}, and soil at 100 mm (9 am) at {floor:g} °C or more for {days:g} days"


def how(plan: Plan, dose: Dose) -> str:
    """In which form, how much on this green, and what may go with it."""
    kilograms = dose.n_kg_ha * plan.facts.area_m2 / 10_000
    with_it = feeding.companions_kg_ha(dose.n_kg_ha, plan.settings)
    cool = plan.climate.soil_c(dose.on) < plan.settings["feeding.light_under_c"]
    form = feeding.TURF_FORM if cool or dose.rule in ("first", "second") else "soluble nitrogen"
    return (
        f"{form[0].upper()}{form[1:]}: {kilograms:.2f} kg N on the green; with it at most "
        f"{with_it['k']:g} kg K/ha and {with_it['p']:g} kg P/ha. Dry leaf, or water it in."
    )
