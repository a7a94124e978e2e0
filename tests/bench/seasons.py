"""A club whose greens were laid many seasons ago, and the newest season of its record.

The diary has a row for each work on each green, some 300 a season, with products and what they brought in
whole mg/m². What stands around it is in :mod:`tests.bench.seasons_around`; the seasons before it are the
same once more (:mod:`tests.bench.seasons_before`), so that clubs differ in the length of their record alone.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta

from greens import models as kept
from greens.choices import ProductKind, Role
from greens.models import Establishment, Membership
from growin.agronomy.measures import MEASURES
from tests.bench.history import reading_set
from tests.cast import club_with_head, joined, laid_green

TODAY = date(2026, 4, 16)
YEAR = timedelta(days=365)
AREA_DM2 = 45_000
#: From which month to which month each work is done, and how many days apart on one green.
SCHEDULE = {
    "cut": (3, 11, 1.8),
    "roll": (4, 10, 7),
    "feed": (3, 10, 16),
    "dressing": (4, 10, 17),
    "brush": (4, 10, 30),
    "aerate": (1, 12, 60),
    "water": (5, 8, 11),
    "wetting_agent": (4, 9, 30),
    "hole_changed": (1, 12, 14),
    "walk": (1, 12, 14),
    "leaves": (10, 12, 9),
    "note": (1, 12, 45),
    "watch": (1, 12, 90),
}
DETAILS = {
    "cut": {"height_mm": 5.5},
    "roll": {"passes": 1},
    "feed": {"form": "granular"},
    "dressing": {"worked_in": "brush"},
    "aerate": {"kind": "solid"},
    "water": {"depth_mm": 4},
    "note": {"text": "Dew until ten, firm underfoot."},
    "watch": {"what": "moss"},
}
#: Kind, name, g or ml on each m², what the label says, and mg/m² of each element that this brings.
SHED = {
    "feed": (ProductKind.GRANULAR, "Spring 8-0-4", 25, {"N_total": 8, "K": 4}, {"N": 2_000, "K": 1_000}),
    "dressing": (ProductKind.SAND, "Dune sand", 500, {}, {}),
    "wetting_agent": (ProductKind.WETTING_AGENT, "Wetter", 2, {}, {}),
}
#: Of 35 measures each has its turn on every green nearly twice a season.
DAYS_BETWEEN_SETS, SETS_IN_A_ROUND = 12, 2


@dataclass
class LongClub:
    """A club with its head greenkeeper, its greens, its shed, and the days of its record."""

    head: Membership
    staff: Membership
    seasons: int
    rebuilds: list[Establishment]
    labels: dict[str, kept.Label] = field(default_factory=dict)

    @property
    def club(self) -> kept.Club:
        return self.head.club

    @property
    def laid_on(self) -> date:
        return TODAY - self.seasons * YEAR

    @property
    def days(self) -> Iterator[date]:
        """Every day of the newest season, the last of them today."""
        return (TODAY - YEAR + timedelta(days=number) for number in range(1, 366))


def club_of(seasons: int, greens: int) -> LongClub:
    """The club with its greens and its shed, its record still empty."""
    head = club_with_head(f"{seasons} seasons", f"Head of {seasons}")
    begun = TODAY - seasons * YEAR
    rebuilds = [
        laid_green(
            head.club,
            f"Green {number}",
            works_started_on=begun - timedelta(days=40),
            established_on=begun,
            area_m2=AREA_DM2 / 100,
        )
        for number in range(1, greens + 1)
    ]
    made = LongClub(head, joined(head.club, f"Staff of {seasons}", Role.STAFF), seasons, rebuilds)
    made.labels = {kind: label(made, *SHED[kind][:2], SHED[kind][3]) for kind in SHED}
    return made


def label(made: LongClub, kind: str, name: str, printed: dict[str, int]) -> kept.Label:
    product = kept.Product.objects.create(club=made.club, kind=kind, name=name)
    density = {"bulk_density_t_m3": "1.6"} if kind == ProductKind.SAND else {}
    one = kept.Label.objects.create(
        product=product, revision=1, from_day=made.laid_on, by=made.head, **density
    )
    kept.LabelLine.objects.bulk_create(
        kept.LabelLine(label=one, part=part, percent=percent) for part, percent in printed.items()
    )
    return one


# ---- diary ------------------------------------------------------------------------------------------


def is_due(kind: str, on: date, turn: int) -> bool:
    """Whether a green has this work on a day; greens take their turns one day after another."""
    first, last, days_apart = SCHEDULE[kind]
    return first <= on.month <= last and (on.toordinal() + turn) % days_apart < 1


def diary(made: LongClub) -> None:
    """Every work of every day on every green: an entry, its line, its product and what this brought."""
    done = list(entries(made))
    kept.Entry.objects.bulk_create(entry for entry, _ in done)
    kept.EntryGreen.objects.bulk_create(line(entry, rebuild) for entry, rebuild in done)
    brought = kept.EntryProduct.objects.bulk_create(
        product(made, entry) for entry, _ in done if entry.kind in SHED
    )
    kept.EntryNutrient.objects.bulk_create(
        kept.EntryNutrient(product=one, element=element, mg_m2=mg_m2)
        for one in brought
        for element, mg_m2 in SHED[one.entry.kind][4].items()
    )


def entries(made: LongClub) -> Iterator[tuple[kept.Entry, Establishment]]:
    for on in made.days:
        for turn, rebuild in enumerate(made.rebuilds):
            for kind in SCHEDULE:
                if is_due(kind, on, turn):
                    yield entry(made, kind, on), rebuild


def entry(made: LongClub, kind: str, on: date) -> kept.Entry:
    by = made.staff
    return kept.Entry(
        club=made.club, kind=kind, on=on, done_by=by, logged_by=by, details=DETAILS.get(kind, {})
    )


def line(entry: kept.Entry, rebuild: Establishment) -> kept.EntryGreen:
    return kept.EntryGreen(
        entry=entry,
        green=rebuild.green,
        establishment=rebuild,
        kind=entry.kind,
        on=entry.on,
        area_dm2=rebuild.green.area_dm2,
    )


def product(made: LongClub, entry: kept.Entry) -> kept.EntryProduct:
    amount = SHED[entry.kind][2] * AREA_DM2 // 100
    return kept.EntryProduct(entry=entry, label=made.labels[entry.kind], amount=amount)


# ---- readings ---------------------------------------------------------------------------------------


def readings(made: LongClub) -> None:
    kept.ReadingSet.objects.bulk_create(reading_sets(made))


def reading_sets(made: LongClub) -> Iterator[kept.ReadingSet]:
    """A round of sets every twelve days on each green, measure after measure."""
    measures = list(MEASURES.values())
    for number, on in enumerate(made.days):
        for turn, rebuild in enumerate(made.rebuilds):
            if (number + turn) % DAYS_BETWEEN_SETS == 0:
                begin = number // DAYS_BETWEEN_SETS * SETS_IN_A_ROUND
                for one in range(begin, begin + SETS_IN_A_ROUND):
                    yield reading_set(made.staff, rebuild, on, measures[one % len(measures)])
