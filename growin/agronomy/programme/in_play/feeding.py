"""Nitrogen of a year in play: inside the band of the grass, spread by growth, never in the closed time."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import ceil

from growin.agronomy import feeding
from growin.agronomy.climate import potential
from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT
from growin.agronomy.programme import feeding as growing_in
from growin.agronomy.programme.feeding import Dose
from growin.agronomy.programme.in_play.span import Month, Span, slots
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, spanned, step_on
from growin.agronomy.season import year_start
from growin.agronomy.season_nutrition import in_first_season, in_play_band

_YEAR = timedelta(days=365)
_WINTER = (11, 2)
_SOURCE = "nitrogen of the year by grass and place; spread by growth potential: Gelernter & Stowell 2005"


@dataclass(frozen=True)
class Portion:
    """What a month is given, kg N/ha, on which of its days; ``is_moved`` by the club's closed time."""

    month: Month
    days: Sequence[date]
    n_kg_ha: float
    is_moved: bool

    def doses(self, most_n_kg_ha: float) -> list[tuple[str, tuple[date, date, date], float]]:
        """Key, days and nitrogen of each feed, to the half kilogram, together what the month is given."""
        turns = slots(self.days, max(1, ceil(self.n_kg_ha / most_n_kg_ha - 1e-9)))
        sums = [feeding.round_dose(self.n_kg_ha * n / len(turns)) for n in range(len(turns) + 1)]
        return [
            (f"feed-{self.month.name}-{n + 1}", turn, sums[n + 1] - sums[n]) for n, turn in enumerate(turns)
        ]


def steps(plan: Plan, span: Span) -> list[Step]:
    """Feeds by growth, and in winter months warm enough for it a look at the colour."""
    return [*_by_growth(plan, span), *_for_colour(plan, span)]


def year_n_kg_ha(plan: Plan) -> float:
    """The nitrogen planned for a whole year, kg/ha: a place in the band, no more than the club's limit."""
    planned = feeding.between(*in_play_band(plan.facts.species, plan.settings), _share(plan))
    limit = plan.facts.year_limit_n_kg_ha
    return planned if limit is None else min(planned, limit)


def _share(plan: Plan) -> float:
    return plan.settings["in_play.nitrogen_share"]


def portions(plan: Plan, months: Sequence[Month]) -> list[Portion]:
    """A year's nitrogen by month; what is too little to spread, or may not be fed, goes into a later one."""
    growing = [one for one in months if one.is_within(*_season(plan))]
    weights = [_growth(plan, one) for one in growing]
    made, waiting, moved = [], 0.0, False
    for month, weight in zip(growing, weights, strict=True):
        waiting += year_n_kg_ha(plan) * weight / (sum(weights) or 1)
        moved = moved or any(plan.facts.is_closed(day) for day in month.days)
        days = _days(plan, month)
        if days and waiting >= plan.settings["feeding.dose.gather_n_kg_ha"]:
            made.append(Portion(month, days, waiting, moved))
            waiting, moved = 0.0, False
    return [*made[:-1], replace(made[-1], n_kg_ha=made[-1].n_kg_ha + waiting)] if made else []


def _season(plan: Plan) -> tuple[float, float]:
    return plan.settings["in_play.feed_from"], plan.settings["in_play.feed_until"]


def _growth(plan: Plan, month: Month) -> float:
    """Growth potential of a month on the normals, in full days."""
    grass = plan.facts.grass
    clock = potential(grass.nitrogen_optimum_c, grass.nitrogen_spread_c)
    return replace(plan.climate, daily={}).sum_between(clock, month.first, month.last + timedelta(days=1))


def _days(plan: Plan, month: Month) -> list[date]:
    """The days of a month on which it may be fed: outside the closed time, on soil that is warm enough."""
    return [
        day
        for day in month.days
        if not plan.facts.is_closed(day) and feeding.may_feed(plan.climate.normal_c(day), plan.settings)
    ]


def _by_growth(plan: Plan, span: Span) -> list[Step]:
    """Feeds to come as long as the last twelve months stay within the band, and the year in the limit."""
    given = [Dose(on, n_kg_ha, "given") for on, n_kg_ha in plan.done.feeds]
    given += [one for one in growing_in.doses(plan) if one.on > span.today]
    made = []
    for portion in (one for months in span.years for one in portions(plan, months)):
        for key, days, n_kg_ha in portion.doses(plan.settings["in_play.dose_n_kg_ha"]):
            dose = Dose(days[1], n_kg_ha, "in play", portion.is_moved)
            if span.begins <= dose.on <= span.ends and days[2] >= span.today and _fits(plan, given, dose):
                given.append(dose)
                made.append(_step(plan, key, days, dose))
    return made


def _fits(plan: Plan, given: Sequence[Dose], dose: Dose) -> bool:
    facts, limit = plan.facts, plan.facts.year_limit_n_kg_ha
    first = in_first_season(facts.established_on, dose.on)
    band = (
        feeding.season_band(facts.establishment, facts.species, plan.settings)
        if first
        else in_play_band(facts.species, plan.settings)
    )
    lately = sum(one.n_kg_ha for one in given if dose.on - _YEAR < one.on <= dose.on)
    begun = year_start(dose.on, facts.latitude_deg)
    this_year = sum(one.n_kg_ha for one in given if begun <= one.on <= dose.on)
    return lately + dose.n_kg_ha <= band[1] and (limit is None or this_year + dose.n_kg_ha <= limit)


def _step(plan: Plan, key: str, days: tuple[date, date, date], dose: Dose) -> Step:
    low, high = in_play_band(plan.facts.species, plan.settings)
    why = f"{year_n_kg_ha(plan):g} kg N/ha over the year, inside {low:g} to {high:g}, as the grass can grow"
    likely = step_on(
        dose.on,
        key,
        "feed",
        amount=dose.n_kg_ha,
        unit=feeding.RATE,
        n_kg_ha=dose.n_kg_ha,
        what="Light feed",
        how=growing_in.how(plan, dose),
        why=why + (growing_in.moved_words(plan) if dose.is_moved else ""),
        source=_SOURCE,
        mark=COMMON_PRACTICE,
        cautions=growing_in.cautions(plan),
        gate=f"soil at 100 mm at {plan.settings['feeding.soil_floor_c']:g} °C or more",
    )
    return spanned(likely, [replace(likely, earliest=on, likely=on, latest=on) for on in (days[0], days[2])])


def _for_colour(plan: Plan, span: Span) -> list[Step]:
    """Winter months with days on which it may be fed at all; no amount is planned, the colour decides."""
    return [
        _colour(plan, month, days)
        for month in span.months
        if month.is_within(*_WINTER) and (days := _days(plan, month))
    ]


def _colour(plan: Plan, month: Month, days: Sequence[date]) -> Step:
    most, floor = plan.settings["in_play.winter_n_kg_ha"], plan.settings["feeding.soil_floor_c"]
    return Step(
        key=f"feed-{month.name}-1",
        kind="feed",
        earliest=days[0],
        likely=days[len(days) // 2],
        latest=days[-1],
        what="Feed only if the colour fades",
        how=f"0–{most:g} kg N/ha in the month, {feeding.TURF_FORM}; nothing under {floor:g} °C soil.",
        why="in winter little is taken up, and soft growth is what microdochium patch takes first",
        source="0–8 kg N/ha a month as colour needs",
        mark=OUR_JUDGEMENT,
        cautions=growing_in.cautions(plan),
        gate=f"soil at 100 mm at {floor:g} °C or more",
    )
