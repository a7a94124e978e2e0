"""The chain of sand: joints first, then light passes in growth, never in winter or on unrooted turf."""

from datetime import date, timedelta

from growin.agronomy import dressing
from growin.agronomy.defaults import COMMON_PRACTICE, PUBLISHED
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import Step, step_on
from growin.agronomy.season import in_winter, next_local_day

_YEAR = timedelta(days=365)
CHAIN, JOINTS = "dressing", "dressing-joints"
LIGHT_SOURCE = "light passes of 0.2–0.8 kg/m²: USGA 2014; every 7–14 days in growth: common practice"
_SAND = "the same grading as the rootzone, or it layers"


def steps(plan: Plan) -> list[Step]:
    """Sand into the joints of turf, then the light passes of the programme."""
    joints = _joints_day(plan)
    made = [_joints(plan, joints)] if joints and joints <= plan.horizon else []
    return made + [_pass(plan, n, day, kg) for n, (day, kg) in enumerate(passes(plan), 1)]


def passes(plan: Plan) -> list[tuple[date, float]]:
    """Day and kg/m² of every light pass of the grow-in, joints not among them."""
    joints = _joints_day(plan)
    begun = joints and joints <= plan.horizon
    return _passes(plan, joints, [(joints, plan.settings["dressing.joints_kg_m2"])] if begun else [])


def _joints_day(plan: Plan) -> date | None:
    """The first frost-free spell from late February once knitted; a week after knitting in growth."""
    if plan.knitted is None or JOINTS in plan.done.steps:
        return plan.done.steps.get(JOINTS)
    ready = plan.knitted + timedelta(days=7)
    if plan.facts.is_autumn_turf and plan.first_rest:
        month, day = (int(plan.settings[f"dressing.first_{part}"]) for part in ("month", "day"))
        ready = max(ready, next_local_day(plan.start, month, day, plan.latitude_deg))
    return plan.climate.first_day(ready, lambda day: _dry_growing(plan, day))


def _dry_growing(plan: Plan, day: date) -> bool:
    mild = plan.climate.week_mean_c(day) >= plan.settings["dressing.frost_free_c"]
    late_winter = (
        plan.month_of(day) == plan.settings["dressing.first_month"]
        and day.day >= plan.settings["dressing.first_day"]
    )
    return mild and (late_winter or not in_winter(day, plan.latitude_deg))


def _first_pass(plan: Plan, joints: date | None) -> date | None:
    if not plan.facts.is_turf:
        return plan.taken and plan.taken + timedelta(days=14)
    if joints is None or plan.rooted is None:
        return None
    return max(plan.rooted, plan.spring, joints + timedelta(days=14))


def _passes(plan: Plan, joints: date | None, begun: list[tuple[date, float]]) -> list[tuple[date, float]]:
    """Passes in growth as long as the last twelve months stay within the season's most.

    What was given counts as it was given; what is planned before that does not count again.
    """
    made, given = [], [*plan.done.dressings, *(one for one in begun if not plan.done.is_past(CHAIN, one[0]))]
    first = _first_pass(plan, joints)
    day = first and plan.not_resting(first)
    while day and day <= plan.horizon:
        day = plan.done.placed(CHAIN, len(made) + 1, day, lambda on: _interval(plan, on))
        one = day, plan.settings[f"dressing.{_pass_key(plan, day)}_kg_m2"]
        if plan.done.is_past(CHAIN, day):
            made.append(one)
        elif not in_winter(day, plan.latitude_deg) and _within_season(plan, given, one):
            given.append(one)
            made.append(one)
        day = plan.not_resting(day + timedelta(days=max(1, _interval(plan, day))))
    return made


def _interval(plan: Plan, day: date) -> int:
    return dressing.interval_days(plan.vigour(day), plan.settings)


def _within_season(plan: Plan, given: list[tuple[date, float]], one: tuple[date, float]) -> bool:
    year = sum(kg for on, kg in given if on > one[0] - _YEAR)
    return year + one[1] <= plan.settings["dressing.season_high_kg_m2"]


def _pass_key(plan: Plan, day: date) -> str:
    seedlings = not plan.facts.is_turf and (plan.covered is None or day < plan.covered)
    return "seedlings" if seedlings else "pass"


def said(plan: Plan, kg_m2: float) -> dict:
    """What a step says of so much sand: amount, depth, how it goes on, what to mind."""
    facts = plan.facts
    whole = dressing.sand_for(kg_m2, facts.area_m2, facts.bulk_density_t_m3)
    depth = dressing.depth_mm(kg_m2, facts.bulk_density_t_m3)
    return {
        "amount": kg_m2,
        "unit": "kg/m²",
        "depth_mm": round(depth, 3),
        "how": f"{whole.mass_t:.2f} t ({whole.volume_m3:.2f} m³) on the green, {depth:.1f} mm deep; "
        f"dry sand on dry grass, {_SAND}.",
        "cautions": ("sand_dust", "frozen_or_wet_turf"),
    }


def _joints(plan: Plan, day: date) -> Step:
    return step_on(
        day,
        JOINTS,
        "dressing",
        **said(plan, plan.settings["dressing.joints_kg_m2"]),
        what="Sand into the joints",
        why="open joints dry out and hold a ball; sand closes them before growth does",
        source="1–2 kg/m² on open joints",
        mark=COMMON_PRACTICE,
        gate="knitted, dry and free of frost",
    )


def _pass(plan: Plan, number: int, day: date, kg_m2: float) -> Step:
    young = _pass_key(plan, day) == "seedlings"
    return step_on(
        day,
        f"dressing-{number:02d}",
        "dressing",
        **said(plan, kg_m2),
        what="Light sand over the seedlings" if young else "Light topdressing",
        why="only as much as needs no drag mat: a mat tears seedlings out" if young else _why(plan),
        source="USGA" if young else LIGHT_SOURCE,
        mark=PUBLISHED,
        gate="seedlings firm underfoot" if young else "roots no longer lift under a brush",
    )


def _why(plan: Plan) -> str:
    return "levels and a firm surface come from light passes in growth" + (
        ", over the old joints first" if plan.facts.is_turf else ""
    )
