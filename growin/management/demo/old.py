"""The second, never rebuilt: what a rebuilt green is held against."""

from datetime import date, timedelta

from greens.actions.analysis import keep_analysis
from greens.actions.day_state import record_state
from greens.actions.green import create_green
from greens.actions.readings import record_readings
from greens.choices import DayStateKind
from greens.models import Establishment, Green
from growin.management.demo.readings import numbers
from growin.management.demo.teller import Teller, dated, every
from growin.management.demo.weather import draw

NAME, POSITION = "Second", 2
STATES_KEPT_DAYS, READ_EVERY_DAYS = 75, 90
SHUT = (DayStateKind.FROSTED, DayStateKind.WATERLOGGED, DayStateKind.TEMPORARY)


def tell(teller: Teller, rebuilt: Establishment) -> Green:
    """Read beside the rebuilt green since that one opened; kept off more days than it."""
    today, since = teller.almanac.today, rebuilt.established_on + timedelta(days=216)
    said = {"club": teller.club, "by": teller.head, "name": NAME, "position": POSITION}
    green = dated(teller, since, lambda: create_green(**said))
    for on in every(since, today - timedelta(days=2), READ_EVERY_DAYS):
        dated(teller, on, lambda on=on: read(teller, green, on))
    for back in range(STATES_KEPT_DAYS, -1, -1):
        on = today - timedelta(days=back)
        dated(teller, on, lambda on=on: keep_state(teller, green, on))
    return green


def read(teller: Teller, green: Green, on: date) -> None:
    for measure, values in (
        ("poa_share", numbers(on, "old frames", 10, 72, 4)),
        ("hardness", numbers(on, "old hammer", 9, 66, 6)),
    ):
        record_readings(
            green=green, by=teller.head, taken_by=teller.worker(on), measure=measure, on=on, values=values
        )


def keep_state(teller: Teller, green: Green, on: date) -> None:
    chance = draw("old state", on).random()
    state = SHUT[int(chance * 100) % len(SHUT)] if chance < 0.45 else DayStateKind.OPEN
    record_state(green=green, by=teller.people["staff"], on=on, state=state)


def analyse(teller: Teller, rebuilt: Establishment) -> None:
    """Soil of the rebuilt green in its two autumns, and the water once."""
    sheets = (
        (420, {"pH": 6.3, "P": 18, "K": 31, "Ca": 410, "Mg": 52, "S": 8}),
        (60, {"pH": 6.5, "P": 22, "K": 28, "Ca": 430, "Mg": 55, "S": 9}),
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
