"""A plainly ready green, built from rows as the greenstaff would have written them."""

from datetime import date, timedelta

from greens.actions.readings import record_readings
from greens.actions.weather import record_day
from tests.cast import Cast

READINGS = {
    "hand_pull": [True] * 10,
    "rooting_depth": [62, 55, 71, 58, 66],
    "joint_gap": [0, 1, 2, 0, 1] * 4,
    "joint_proud": [0] * 20,
    "lip": [0, 1, 0, 1.5, 0] * 4,
    "dip": [2, 1, 3, 0, 2, 1] * 2,
    "ball_roll": [True] * 6,
    "hole": [True] * 3,
    "drop": [True] * 9,
    "hole_positions": [6],
    "scalping": [False],
    "standing_water_free": [True],
    "irrigation_live": [True],
    "drains_running": [True],
    "routes_rooted": [True] * 4,
    "temporary_green_kept": [True],
    "disease_share": [0],
}
HEIGHT_MM = 5.5  # fescue/bent: summer height 4.5 mm and 1 mm above it
HEIGHTS_ON = (20, 10, 1)


def make_ready(cast: Cast, on: date | None = None, **instead) -> None:
    """All that the bars ask of turf laid last autumn, read by ``on``; ``instead`` replaces readings."""
    day = on or cast.today
    for measure, values in {**READINGS, **instead}.items():
        read(cast, measure, values, day)
    for back in HEIGHTS_ON:
        read(cast, "height", [HEIGHT_MM] * 3, day - timedelta(days=back))
    for back in range(10):
        record_day(club=cast.club, by=cast.head, on=day - timedelta(days=back), min_c=5, max_c=15)


def read(cast: Cast, measure: str, values, on: date, **more):
    return record_readings(
        green=cast.green,
        by=cast.staff,
        taken_by=cast.staff,
        measure=measure,
        on=on,
        values=values,
        **more,
    )
