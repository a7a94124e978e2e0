"""What was done differently from the plan: amount and day, in words."""

from datetime import date

from greens.models import Entry, EntryNutrient
from growin.agronomy.nutrition import MG_M2_PER_KG_HA
from growin.agronomy.plain_words import amount, counted
from growin.models import ProgrammeStep
from growin.queries.standing import GRACE, LEAD

#: An amount within a twentieth of the plan is as planned (our judgement).
NEAR = 0.05
HEIGHTS = {"cut": "height_mm", "mower_set": "bench_height_mm", "water": "depth_mm", "hand_water": "depth_mm"}


def differs_of(step: ProgrammeStep, on: date, entry: Entry | None) -> str:
    """One phrase, empty when all went as planned: "8 kg N/ha, planned 6 kg N/ha; 4 days later"."""
    return "; ".join(said for said in (_amount(step, entry), _day(step, on)) if said)


def _amount(step: ProgrammeStep, entry: Entry | None) -> str:
    done = amount_done(step, entry) if entry and step.amount else None
    if done is None or abs(done - step.amount) <= NEAR * step.amount:
        return ""
    return f"{amount(done, step.unit, 2)}, planned {step.planned}"


def amount_done(step: ProgrammeStep, entry: Entry) -> float | None:
    """How much an entry brought, in the unit of the step; None where the entry does not say."""
    if step.kind == "feed" and step.unit == "kg N/ha":
        return nitrogen_kg_ha(entry)
    if step.kind == "dressing" and step.unit == "kg/m²":
        return sand_kg_m2(entry)
    return entry.details.get(HEIGHTS.get(step.kind, ""))


def nitrogen_kg_ha(entry: Entry) -> float | None:
    found = EntryNutrient.objects.filter(product__entry=entry, element="N").values_list("mg_m2", flat=True)
    return sum(found) / MG_M2_PER_KG_HA if found else None


def sand_kg_m2(entry: Entry) -> float | None:
    """Dry sand over the areas as they were on that day."""
    area_m2 = sum(line.area_dm2 for line in entry.lines.all()) / 100
    grams = sum(one.amount for one in entry.products.filter(label__unit="g"))
    return grams / 1000 / area_m2 if area_m2 and grams else None


def _day(step: ProgrammeStep, on: date) -> str:
    if step.earliest - LEAD <= on <= step.latest + GRACE:
        return ""
    off = (on - step.latest).days if on > step.latest else (on - step.earliest).days
    return f"{counted(abs(off), 'days')} {'later than its latest' if off > 0 else 'before its earliest'} day"
