"""A green's season as it was lived: the steps of its programme, the cuts between, the odd wet day."""

from datetime import date, timedelta

from django.db.models import Q

from greens.models import Establishment
from growin.actions.programme import issue_programme
from growin.agronomy.programme import GATE, INSPECTION, READING
from growin.management.demo.readings import rooting, sound
from growin.management.demo.teller import Teller, dated, every
from growin.management.demo.weather import draw
from growin.models import ProgrammeStep
from growin.queries.programme import steps_in_force

RAINED_OFF = 0.07
LEFT_OPEN_DAYS, READ_AT_INSPECTION_DAYS = 3, 10
WEATHER = "weather"
# What a kind of work says of itself in the story, where it has to say something.
SAYS = {
    "irrigation_check": {"live": True, "hose_ready": True},
    "drain_check": {"running": True, "water": "clear"},
    "fence": {"state": "up"},
    "temporary_green": {"state": "in_play"},
    "covers": {"state": "off"},
    "watch": {"what": "microdochium", "severity": "trace", "share_percent": 1},
    "aerate": {
        "kind": "solid",
        "tine_diameter_mm": 8,
        "spacing_mm": 50,
        "row_spacing_mm": 50,
        "depth_mm": 80,
    },
    "joint_repair": {"how": "sand", "widest_mm": 4},
    "settle": {"place": "over the main drain", "change_mm": 8},
    "dew": {"tool": "switch"},
    "water": {"depth_mm": 6},
    "hand_water": {"depth_mm": 3},
    "roll": {"passes": 1},
    "brush": {"tool": "drag_brush"},
    "photograph": {"point": "post by the back bunker"},
    "hole_changed": {"edge_held": True},
    "mower_set": {
        "machine": "hand mower, 10 blades",
        "bench_height_mm": 9,
        "measured_height_mm": 9.2,
        "sharpened": True,
    },
    "note": {"text": "Looked it over with the contractor."},
}


def live(teller: Teller, rebuilt: Establishment, until: date, *, opening_mm: float) -> None:
    """Draw the programme on the day of laying and do its steps up to ``until``, but for the last few."""
    began = rebuilt.established_on
    dated(
        teller,
        began,
        lambda: issue_programme(
            establishment=rebuilt, by=teller.head, on=began, why="Drawn on the first day."
        ),
    )
    past = steps_in_force([rebuilt]).filter(likely__lte=until - timedelta(days=LEFT_OPEN_DAYS))
    inspected = Q(kind=READING, likely__gt=until - timedelta(days=READ_AT_INSPECTION_DAYS))
    for step in past.exclude(kind=GATE).exclude(inspected).order_by("likely", "key"):
        dated(teller, step.likely, lambda step=step: take(teller, rebuilt, step, opening_mm))


def take(teller: Teller, rebuilt: Establishment, step: ProgrammeStep, opening_mm: float) -> None:
    """One step on its day: done, read, or left undone for the weather."""
    on = max(step.likely, rebuilt.established_on)
    if step.key == "feed-starter" or step.kind in (INSPECTION, "defect"):
        return teller.done(rebuilt, step.key, on)
    if step.kind == READING:
        return read(teller, rebuilt, step, on, opening_mm)
    if draw(step.key, on).random() < RAINED_OFF:
        return teller.left_undone(rebuilt, step.key, on, WEATHER)
    return teller.done(rebuilt, step.key, on, entry=work(teller, rebuilt, step, on))


def work(teller: Teller, rebuilt: Establishment, step: ProgrammeStep, on: date):
    green, amount = rebuilt.green, step.amount or 0
    if step.kind == "feed":
        return teller.feed(on, green, amount)
    if step.kind == "dressing":
        return teller.dress(on, green, amount)
    if step.kind == "cut":
        return teller.cut(on, green, amount)
    return teller.work(step.kind, on, [green], details=SAYS.get(step.kind, {}))


def read(teller: Teller, rebuilt: Establishment, step: ProgrammeStep, on: date, opening_mm: float) -> None:
    """The measure that is due, as a green of that age shows it; a seldom one stays unread."""
    known = sound(on, not rebuilt.is_turf, opening_mm) | young(rebuilt, on)
    if step.measure not in known:
        return teller.left_undone(rebuilt, step.key, on, "no tool for it yet")
    for _, kept in teller.read(on, rebuilt.green, {step.measure: known[step.measure]}):
        teller.done(rebuilt, step.key, on, reading_set=kept)
    return None


def young(rebuilt: Establishment, on: date) -> dict:
    """Roots go down some 3 mm a week at first; a young green pulls up at some points."""
    weeks = (on - rebuilt.established_on).days / 7
    if weeks > 26:
        return {}
    roots = rooting(on, 12 + 1.5 * weeks, holding=min(10, round(3 + weeks / 4)))
    return roots if rebuilt.is_turf else {"rooting_depth": roots["rooting_depth"]}


def cut_between(teller: Teller, rebuilt: Establishment, first: date, last: date, heights, warmth_c) -> None:
    """Cuts from first to last: every fortnight in winter, thrice a week in full growth.

    ``heights`` tells the bench height of a day, ``warmth_c`` its normal.
    """
    day = first
    while day <= last:
        warm = warmth_c(day)
        if warm >= 4.5:
            dated(teller, day, lambda day=day: teller.cut(day, rebuilt.green, heights(day)))
        day += timedelta(days=14 if warm < 6 else 5 if warm < 9 else 3)


def keep_up(teller: Teller, rebuilt: Establishment, first: date, last: date, warmth_c) -> None:
    """Upkeep beyond the programme: a light feed every three weeks and sand every four, in growth."""
    growing = [day for day in every(first, last, 21) if warmth_c(day) >= 8]
    for day in growing:
        dated(teller, day, lambda day=day: teller.feed(day, rebuilt.green, 5))
    for day in [day + timedelta(days=4) for day in growing if day + timedelta(days=4) <= last]:
        dated(teller, day, lambda day=day: teller.dress(day, rebuilt.green, 0.5))
    for day in every(first, last, 14):
        dated(teller, day, lambda day=day: teller.work("walk", day, [rebuilt.green]))
