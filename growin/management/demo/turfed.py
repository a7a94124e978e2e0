"""The seventh, turfed last autumn: the green that everybody asks about."""

from datetime import date, timedelta

from greens.actions.advice import give_advice
from greens.actions.turf import set_turf
from greens.choices import LayerKind, MaterialKind
from greens.models import Establishment
from growin.agronomy.climate import Climate
from growin.management.demo.almanac import CLOSED_AGAIN, NEARLY, READY, UNREAD, YOUNG
from growin.management.demo.building import SOUND_LAYERS, Plan, build, note_snags
from growin.management.demo.opening import close_green, open_green
from growin.management.demo.readings import numbers, sound
from growin.management.demo.season import cut_between, live
from growin.management.demo.teller import Teller, dated

OPENING_MM = 5.5
PLAN = Plan(
    name="Seventh",
    number=7,
    radii_m=(10.6, 11.2, 12.8, 13.5, 12.9, 11.4, 10.2, 9.8, 10.1, 10.9),
    distance_to_water_m=2.5,
    kind="turf_supplied",
    species="fescue/bent",
    days_of_works=38,
    layers=SOUND_LAYERS | {LayerKind.ROOTZONE: (288, 11)},
    fall_percent=0.4,
    establishment={"summer_height_mm": 4.5},
)


def tell(teller: Teller, materials: dict, climate: Climate) -> Establishment:
    almanac = teller.almanac
    laid = teller.local(almanac.turf_laid)
    rebuilt = dated(teller, laid, lambda: build(teller, PLAN, laid, materials))
    set_turf(
        establishment=rebuilt, by=teller.head, source="Hollow Lane turf", age_months=20, cut_thickness_mm=18,
        thatch_mm=7, lifted_on=laid - timedelta(days=1), soil=materials[MaterialKind.TURF_SOIL],
        species_percent=[["fescue", 80], ["bent", 20]],
    )  # fmt: skip
    note_snags(teller, rebuilt, almanac.today)
    live(teller, rebuilt, almanac.today, opening_mm=OPENING_MM)
    cut_on(teller, rebuilt, climate)
    CHAPTERS[almanac.phase](teller, rebuilt)
    advise(teller, rebuilt)
    return rebuilt


def cut_on(teller: Teller, rebuilt: Establishment, climate: Climate) -> None:
    """Cuts between the rungs: 8 mm over winter, at opening height from the spring on."""
    spring = rebuilt.established_on + timedelta(days=178)
    first = rebuilt.established_on + timedelta(days=30)
    heights = lambda day: OPENING_MM if day >= spring else 8.0  # noqa: E731
    cut_between(teller, rebuilt, first, teller.almanac.today - timedelta(days=1), heights, climate.normal_c)


def inspection(teller: Teller, rebuilt: Establishment, on: date, found: dict, note: str = "") -> None:
    """A full set on one day, after the heights of the fortnight before."""
    for days in (21, 14, 7):
        day = on - timedelta(days=days)
        dated(teller, day, lambda day=day: teller.inspect(day, rebuilt, {"height": [5.5, 5.45, 5.5]}))
    known = sound(on, False, OPENING_MM) | found
    dated(teller, on, lambda: teller.inspect(on, rebuilt, known, note=note))


def is_young(teller: Teller, rebuilt: Establishment) -> None:
    """Nothing to inspect yet: it rests, and the gate says from when it may be looked at."""


def is_nearly(teller: Teller, rebuilt: Establishment) -> None:
    last = teller.almanac.today - timedelta(days=3)
    known = sound(last, False, 6.0) | {
        "rooting_depth": [58, 52, 41, 55, 38],
        "hand_pull": [True] * 7 + [False] * 3,
        "joint_gap": [2] * 18 + [4, 5],
    }
    note = "Roots are coming, but three points still lift; wait for the warmth."
    dated(teller, last, lambda: teller.inspect(last, rebuilt, known, note=note))


def is_ready(teller: Teller, rebuilt: Establishment) -> None:
    inspection(teller, rebuilt, teller.almanac.today - timedelta(days=3), {}, "It holds everywhere.")


def was_closed_again(teller: Teller, rebuilt: Establishment) -> None:
    """Opened to limited play in spring, closed by the stop rule, and healing since."""
    opened, closed = open_in_spring(teller, rebuilt)
    dated(teller, closed, lambda: close_green(teller, rebuilt, closed))
    last = teller.almanac.today - timedelta(days=3)
    torn = {
        "joint_gap": [1] * 15 + [4, 4, 5, 6, 4],
        "disease_share": [3.5],
        "lip": numbers(last, "lip", 18, 0.6, 0.5) + [3, 4],
    }
    inspection(teller, rebuilt, last, torn, "The torn joints are knitting; red thread on the front.")


def has_not_been_read(teller: Teller, rebuilt: Establishment) -> None:
    """Healed by the end of summer, cored, and not read since."""
    opened, closed = open_in_spring(teller, rebuilt)
    dated(teller, closed, lambda: close_green(teller, rebuilt, closed))
    read = max(closed + timedelta(days=60), teller.almanac.today - timedelta(days=45))
    inspection(teller, rebuilt, read, {}, "Healed. Cored next week, so it is to be read again after that.")


def open_in_spring(teller: Teller, rebuilt: Establishment) -> tuple[date, date]:
    opened = rebuilt.established_on + timedelta(days=196)
    inspection(teller, rebuilt, opened - timedelta(days=3), {})
    dated(teller, opened, lambda: open_green(teller, rebuilt, opened, limited=True))
    return opened, opened + timedelta(days=30)


CHAPTERS = {
    YOUNG: is_young,
    NEARLY: is_nearly,
    READY: is_ready,
    CLOSED_AGAIN: was_closed_again,
    UNREAD: has_not_been_read,
}


def advise(teller: Teller, rebuilt: Establishment) -> None:
    """The adviser came by three weeks after laying, and looked under the turf."""
    on = rebuilt.established_on + timedelta(days=21)
    if on <= teller.almanac.today:
        words = (
            "The turf stands on finer soil than the rootzone; plan to core it out from late summer on. "
            "The lateral on the left falls less than 1 in 200: watch for standing water there first."
        )
        by = teller.people["adviser"]
        dated(teller, on, lambda: give_advice(green=rebuilt.green, by=by, on=on, words=words))
