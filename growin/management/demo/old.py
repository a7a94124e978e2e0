"""The second, never rebuilt: what a rebuilt green is held against."""

from datetime import date, timedelta

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
