"""The years of a green in play: its programme drawn anew and done step by step, and what was found."""

from datetime import date, timedelta

from greens.actions.readings import record_readings
from greens.models import Establishment
from growin.actions.programme import issue_programme
from growin.agronomy.programme import GATE, INSPECTION, READING, is_of_a_year
from growin.management.demo.readings import numbers
from growin.management.demo.season import LEFT_OPEN_DAYS, RAINED_OFF, WEATHER, work
from growin.management.demo.teller import Teller, dated, every
from growin.management.demo.weather import draw
from growin.models import ProgrammeStep
from growin.queries.programme import steps_in_force

FIRST_DRAWN_DAYS, DRAWN_EVERY_DAYS = 35, 120
#: Northern months and days on which something was seen, with its share of the green, %.
SEEN = (
    (11, 18, "microdochium", 2, "a few spots in the shade of the bank"),
    (1, 14, "microdochium", 1, "the old spots, drying up"),
    (7, 9, "dry_patch", 3, "the high shoulder, dry at 40 mm"),
    (8, 20, "take_all", 0.5, "one bronze ring by the front; roots dark; a core sent to the laboratory"),
    (2, 6, "moss", 1, "along the north edge"),
)
ORGANIC = {"depth_from_mm": 0, "depth_to_mm": 20, "method": "loss on ignition"}


def live(teller: Teller, rebuilt: Establishment, opened: date) -> None:
    """Draw the year after opening and again as it runs on; do its steps up to today, but for the last few."""
    today = teller.almanac.today
    drawn = every(opened + timedelta(days=FIRST_DRAWN_DAYS), today - timedelta(days=14), DRAWN_EVERY_DAYS)
    for number, on in enumerate(drawn):
        dated(teller, on, lambda on=on: draw_on(teller, rebuilt, on))
        until = [*drawn, today - timedelta(days=LEFT_OPEN_DAYS)][number + 1]
        do_between(teller, rebuilt, on, until)
    for seen in seen_between(teller, opened, today):
        dated(teller, seen[0], lambda seen=seen: see(teller, rebuilt, *seen))


def draw_on(teller: Teller, rebuilt: Establishment, on: date) -> None:
    issue_programme(establishment=rebuilt, by=teller.head, on=on, why="The year in play.")


def do_between(teller: Teller, rebuilt: Establishment, first: date, last: date) -> None:
    rows = steps_in_force([rebuilt]).filter(likely__gte=first, likely__lt=last).exclude(kind=GATE)
    for step in [one for one in rows.order_by("likely", "key") if is_of_a_year(one.key)]:
        dated(teller, step.likely, lambda step=step: take(teller, rebuilt, step))


def take(teller: Teller, rebuilt: Establishment, step: ProgrammeStep) -> None:
    """One step on its day: read, looked at, done, or left undone for the weather."""
    on = step.likely
    if step.kind == READING:
        kept = record(teller, rebuilt, step.measure, on)
        return teller.done(rebuilt, step.key, on, reading_set=kept)
    if step.kind in (INSPECTION, "watch") or step.kind == "feed" and not step.amount:
        return teller.done(rebuilt, step.key, on)
    if draw(step.key, on).random() < RAINED_OFF:
        return teller.left_undone(rebuilt, step.key, on, WEATHER)
    return teller.done(rebuilt, step.key, on, entry=work(teller, rebuilt, step, on))


def record(teller: Teller, rebuilt: Establishment, measure: str, on: date):
    """A surface that firms, with less Poa and organic matter; roots cross the face in the second year."""
    years = (on - rebuilt.established_on).days / 365
    values, protocol = {
        "hardness": lambda: (numbers(on, "hammer", 9, 74 + 7 * years, 5), {}),
        "moisture": lambda: (numbers(on, "probe", 12, 25 - 2 * years, 3), {}),
        "poa_share": lambda: (numbers(on, "frames", 10, max(25, 56 - 8 * years), 4), {}),
        "organic_matter": lambda: ([one / 10 for one in numbers(on, "loss", 3, 64 - 5 * years, 3)], ORGANIC),
        "face_crossed": lambda: ([True] * 3 + [years > 1] * 2, {"layer": "none" if years > 1 else "thin"}),
    }[measure]()
    return record_readings(
        green=rebuilt.green, by=teller.head, taken_by=teller.worker(on), measure=measure, on=on,
        values=values, protocol=protocol,
    )  # fmt: skip


def seen_between(teller: Teller, first: date, last: date) -> list[tuple[date, str, float, str]]:
    """What the walks showed, year after year, a little less each time."""
    found = []
    for month, day, what, share, note in SEEN:
        on = teller.local(teller.almanac.last(month, day))
        while on > first:
            found += [(on, what, share, note)] if on <= last else []
            on -= timedelta(days=365)
    return sorted(found)


def see(teller: Teller, rebuilt: Establishment, on: date, what: str, share: float, note: str) -> None:
    details = {"what": what, "severity": "trace", "share_percent": share, "place": note}
    teller.work("watch", on, [rebuilt.green], details=details)
