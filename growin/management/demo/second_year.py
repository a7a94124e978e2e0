"""The fourth, in its second year: in play since last spring, with the state of each day."""

from datetime import date, timedelta

from greens.actions.analysis import keep_analysis
from greens.actions.day_state import record_state
from greens.actions.turf import set_turf
from greens.choices import DayStateKind
from greens.models import Establishment, Green
from growin.agronomy.climate import Climate
from growin.agronomy.season import northern_month
from growin.management.demo import in_play
from growin.management.demo.building import SOUND_LAYERS, Plan, build
from growin.management.demo.opening import open_green
from growin.management.demo.readings import sound
from growin.management.demo.season import cut_between, live
from growin.management.demo.teller import Teller, dated, every
from growin.management.demo.weather import draw

SUMMER_MM, OPENING_MM, WINTER_MM = 4.0, 5.0, 5.5
STATES_KEPT_DAYS = 75
WINTER = frozenset({11, 12, 1, 2, 3})
PLAN = Plan(
    name="Fourth",
    number=4,
    radii_m=(11.2, 11.9, 12.4, 11.8, 10.9, 10.4, 10.8, 11.5),
    distance_to_water_m=12,
    kind="turf_relaid",
    species="annual meadow grass/bent",
    days_of_works=34,
    layers=SOUND_LAYERS,
    establishment={"summer_height_mm": SUMMER_MM, "others_height_mm": 4.25},
)


def tell(teller: Teller, materials: dict, climate: Climate) -> Establishment:
    laid = teller.local(teller.almanac.last(10, 10, before=teller.almanac.turf_laid, days=1))
    rebuilt = dated(teller, laid, lambda: build(teller, PLAN, laid, materials))
    set_turf(
        establishment=rebuilt, by=teller.head, source="the green's own turf", age_months=240,
        cut_thickness_mm=28, thatch_mm=11, lifted_on=laid - timedelta(days=33),
        species_percent=[["bent", 45], ["annual meadow-grass (Poa)", 55]],
    )  # fmt: skip
    opened = laid + timedelta(days=196)
    live(teller, rebuilt, min(teller.almanac.today, laid + timedelta(days=300)), opening_mm=OPENING_MM)
    inspect_for_opening(teller, rebuilt, opened)
    played(teller, rebuilt, opened, climate)
    return rebuilt


def inspect_for_opening(teller: Teller, rebuilt: Establishment, opened: date) -> None:
    for days in (21, 14):
        on = opened - timedelta(days=days)
        dated(teller, on, lambda on=on: teller.inspect(on, rebuilt, {"height": [5.0, 5.0, 4.95]}))
    last = opened - timedelta(days=3)
    dated(teller, last, lambda: teller.inspect(last, rebuilt, sound(last, False, OPENING_MM)))
    dated(teller, opened, lambda: open_green(teller, rebuilt, opened))


def played(teller: Teller, rebuilt: Establishment, opened: date, climate: Climate) -> None:
    """Cuts since the opening, the year's programme, its speed; the state of each of the last days."""
    today = teller.almanac.today
    warmth = climate.normal_c
    heights = lambda day: SUMMER_MM if warmth(day) > 10 else WINTER_MM  # noqa: E731
    cut_between(
        teller, rebuilt, max(opened, today - timedelta(days=330)), today - timedelta(days=1), heights, warmth
    )
    first = opened - timedelta(days=9)
    for measure in ("face_crossed", "poa_share"):
        dated(teller, first, lambda measure=measure: in_play.record(teller, rebuilt, measure, first))
    in_play.live(teller, rebuilt, opened)
    for on in every(opened + timedelta(days=20), today - timedelta(days=2), 30):
        dated(teller, on, lambda on=on: read_beside(teller, rebuilt, on))
    for back in range(STATES_KEPT_DAYS, -1, -1):
        on = today - timedelta(days=back)
        if on > opened:
            dated(teller, on, lambda on=on: keep_state(teller, rebuilt, on, climate))


def read_beside(teller: Teller, rebuilt: Establishment, on: date) -> None:
    """Speed every month; firmness in the months in which the programme asks for none."""
    teller.inspect(on, rebuilt, {"green_speed": [rolls(on)]})
    if northern_month(on.month, teller.almanac.latitude_deg) in WINTER:
        for measure in ("hardness", "moisture"):
            in_play.record(teller, rebuilt, measure, on)


def rolls(on: date) -> dict[str, list[float]]:
    """Three balls one way and three back, m."""
    chance = draw("rolls", on)
    return {side: [round(chance.gauss(2.75, 0.05), 2) for _ in range(3)] for side in ("first", "second")}


def keep_state(teller: Teller, rebuilt: Establishment, on: date, climate: Climate) -> None:
    chance = draw("state", on).random()
    cold, wet = climate.normal_c(on) < 6, chance > 0.93
    state = DayStateKind.OPEN
    if cold and chance < 0.22:
        state = DayStateKind.FROSTED
    elif cold and chance < 0.3:
        state = DayStateKind.THAWING
    elif wet:
        state = DayStateKind.WATERLOGGED
    elif chance > 0.86:
        state = DayStateKind.RESTED
    record_state(green=rebuilt.green, by=teller.people["staff"], on=on, state=state)


def analyse(teller: Teller, rebuilt: Establishment) -> None:
    """Its soil in two autumns, and the water once."""
    sheets = (
        (420, {"pH": 6.3, "P": 18, "K": 31, "Ca": 410, "Mg": 52, "S": 8}),
        (60, {"pH": 6.5, "P": 22, "K": 28, "Ca": 430, "Mg": 55, "S": 9, "carbonate_percent": 0.4}),
    )
    for days, values in sheets:
        on = max(teller.almanac.today - timedelta(days=days), rebuilt.established_on)
        soil = {"kind": "soil", "extractant": "mehlich_3", "depth_mm": 100, "values": values}
        dated(teller, on, lambda on=on, soil=soil: sheet(teller, rebuilt.green, on, **soil))
    on = teller.almanac.today - timedelta(days=45)
    water = {"kind": "water", "values": {"pH": 7.6, "ec_ds_m": 0.5, "HCO3": 190, "Ca": 62, "Mg": 8, "Na": 24}}
    dated(teller, on, lambda: sheet(teller, rebuilt.green, on, **water))


def sheet(teller: Teller, green: Green, on: date, **more) -> None:
    keep_analysis(green=green, by=teller.head, on=on, laboratory="County soil laboratory", **more)
