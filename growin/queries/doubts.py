"""What is doubtful about a planned step: said before it is kept, for the head greenkeeper to answer."""

from collections.abc import Mapping
from datetime import date, timedelta

from greens.models import Establishment
from growin.agronomy import closed_time
from growin.agronomy.dressing import judge_dressing
from growin.agronomy.feeding import GRANULAR, dose_limit_n_kg_ha, judge_dose
from growin.agronomy.heights import judge_height
from growin.agronomy.season import in_winter
from growin.agronomy.works import WORKS
from growin.models import ProgrammeStep
from growin.queries.programme import steps_in_force

#: What the amount of a kind of step is planned in; other kinds take any.
UNITS_OF = {"cut": ("mm",), "feed": ("kg N/ha", "kg P/ha", "l/ha"), "dressing": ("kg/m²",)}
#: What the diary takes as a height of cut, mm.
CUTS_MM = next((one.low, one.high) for one in WORKS["cut"].fields if one.key == "height_mm")
_YEAR = timedelta(days=365)


def refusal(kind: str, amount: float | None, unit: str, settings: Mapping[str, float]) -> str:
    """Why an amount cannot be planned at all; empty when it can."""
    if not amount:
        return ""
    right = UNITS_OF.get(kind, (unit,))
    if unit not in right:
        return f"The amount of such a step is in {' or '.join(right)}, not in {unit or 'none'}."
    if kind == "cut":
        return _no_height(amount)
    return _over_one_dose(amount, settings) if unit == "kg N/ha" else ""


def _no_height(amount_mm: float) -> str:
    low, high = CUTS_MM
    if low <= amount_mm <= high:
        return ""
    return f"{amount_mm:g} mm is no height of cut for a green; it should be from {low:g} to {high:g} mm."


def _over_one_dose(n_kg_ha: float, settings: Mapping[str, float]) -> str:
    limit = dose_limit_n_kg_ha(settings)
    return f"{n_kg_ha:g} kg N/ha is over {limit:g} kg N/ha, the most in one dose." if n_kg_ha > limit else ""


def doubts(
    establishment: Establishment, *, kind: str, amount: float | None, unit: str, on: date, key: str = "",
    settings: Mapping[str, float],
) -> tuple[str, ...]:  # fmt: skip
    """Sentences about a step of this kind and amount on that day; empty when it is ordinary."""
    if kind == "feed":
        return _feed(establishment, amount, unit, on, settings)
    if not amount:
        return ()
    others = steps_in_force([establishment]).filter(kind=kind, is_dropped=False).exclude(key=key)
    if kind == "cut":
        above = others.filter(likely__lt=on).order_by("-likely", "amount").first()
        return tuple(judge_height(amount, above and above.amount, establishment.species, settings))
    return _sand(establishment, amount, on, others, settings) if kind == "dressing" else ()


def _feed(establishment: Establishment, amount: float | None, unit: str, on: date, settings):
    club = establishment.green.club
    closed = closed_time.refusal(on, club.closed_from, club.closed_until)
    dose = judge_dose(amount, GRANULAR, settings) if amount and unit == "kg N/ha" else ()
    return (*filter(None, [closed]), *dose)


def _sand(establishment, kg_m2: float, on: date, others, settings) -> tuple[str, ...]:
    year = others.filter(likely__gt=on - _YEAR, likely__lte=on, unit="kg/m²")
    winter = in_winter(on, float(establishment.green.club.latitude_deg))
    so_far = sum(_kg_m2(one) for one in year)
    return judge_dressing(kg_m2, settings, season_so_far_kg_m2=so_far, winter=winter)


def _kg_m2(step: ProgrammeStep) -> float:
    return step.amount or 0.0
