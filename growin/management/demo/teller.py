"""The one who tells the story: works, reads and notes by the same verbs as the site, on their own days."""

from collections.abc import Callable, Iterable
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from typing import TypeVar

from django.conf import settings

from greens.actions.diary import record_work
from greens.actions.readings import record_readings
from greens.models import Club, Establishment, Green, Label, Membership, TrailLine
from growin.actions.answer import not_done, tick
from growin.management.demo.almanac import Almanac
from growin.management.demo.weather import draw
from growin.queries.programme import readings_due

T = TypeVar("T")
FOR_ALL_CUTS = {"direction": "up and down", "boxes": "on"}


@dataclass
class Teller:
    """Knows the club, its people and its store; every deed is dated on the day it belongs to."""

    club: Club
    almanac: Almanac
    people: dict[str, Membership]
    labels: dict[str, Label] = field(default_factory=dict)

    @property
    def head(self) -> Membership:
        return self.people["head"]

    @property
    def committee(self) -> Membership:
        return self.people["committee"]

    def local(self, northern: date) -> date:
        return self.almanac.local(northern)

    def worker(self, on: date) -> Membership:
        """Whoever was on duty: mostly the greenstaff, sometimes one without e-mail."""
        return self.people["by_name"] if draw("duty", on).random() < 0.3 else self.people["staff"]

    def work(self, kind: str, on: date, greens: Iterable[Green], **more):
        """Log one piece of work on a local day."""
        doer = self.worker(on)
        return record_work(
            club=self.club,
            by=self.people["staff"],
            done_by=doer,
            kind=kind,
            on=on,
            greens=list(greens),
            **more,
        )

    def cut(self, on: date, green: Green, height_mm: float, **details):
        return self.work("cut", on, [green], details=FOR_ALL_CUTS | {"height_mm": height_mm} | details)

    def feed(self, on: date, green: Green, n_kg_ha: float):
        """Spread that much nitrogen from the granules or the liquid of the store."""
        label, percent = (self.labels["spring"], 8) if n_kg_ha >= 6 else (self.labels["liquid"], 12)
        per_m2 = n_kg_ha / 10 * 100 / percent
        return self.work(
            "feed",
            on,
            [green],
            products=[(label, round(per_m2 * green.area_m2))],
            details={"watered_in": True},
        )

    def dress(self, on: date, green: Green, kg_m2: float):
        grams = round(kg_m2 * green.area_m2) * 1000
        return self.work(
            "dressing", on, [green], products=[(self.labels["sand"], grams)], details={"worked_in": "brush"}
        )

    def read(self, on: date, green: Green, sets: dict[str, list], note: str = ""):
        """One set of readings for each measure."""
        for measure, values in sets.items():
            yield measure, record_readings(
                green=green, by=self.head, taken_by=self.worker(on), measure=measure, on=on, values=values,
                note=note, protocol=protocol_of(measure),
            )  # fmt: skip

    def inspect(self, on: date, rebuilt: Establishment, sets: dict[str, list], note: str = "") -> None:
        """A round of readings; each answers the nearest reading due of its measure."""
        for measure, kept in self.read(on, rebuilt.green, sets, note):
            for due in readings_due([rebuilt], measure, on)[:1]:
                self.done(rebuilt, due.step.key, on, reading_set=kept)

    def done(self, establishment: Establishment, key: str, on: date, entry=None, reading_set=None) -> None:
        tick(
            establishment=establishment, key=key, by=self.people["staff"], on=on, entry=entry,
            reading_set=reading_set,
        )  # fmt: skip

    def left_undone(self, establishment: Establishment, key: str, on: date, reason: str) -> None:
        not_done(establishment=establishment, key=key, by=self.people["staff"], on=on, reason=reason)

    def moment(self, on: date, hour: int = 17) -> datetime:
        return datetime.combine(on, time(hour), self.club.zone)


def protocol_of(measure: str) -> dict:
    """How the story's sets were taken, where a measure asks for it."""
    return {"cover": {"points_per_frame": 25}, "dip": {"contour": "yes"}}.get(measure, {})


def every(first: date, last: date, days: int) -> list[date]:
    """Days from first to last, so many apart."""
    return [first + timedelta(days=step) for step in range(0, max((last - first).days + 1, 0), days)]


def dated(teller: Teller, on: date, deed: Callable[[], T]) -> T:
    """Do it as on that day: the site believes it is that day, and the record of changes says so."""
    newest = TrailLine.objects.order_by("-pk").values_list("pk", flat=True).first() or 0
    with the_day(on):
        done = deed()
    TrailLine.objects.filter(pk__gt=newest).update(at=teller.moment(on))
    return done


@contextmanager
def the_day(on: date):
    """Every club takes ``on`` for today."""
    before, settings.FIXED_TODAY = settings.FIXED_TODAY, on
    try:
        yield
    finally:
        settings.FIXED_TODAY = before
