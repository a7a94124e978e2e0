"""What a sweep over all clubs costs: ``pytest -s -m bench tests/bench/test_sweep.py``.

Clubs of 18 laid greens with fresh forecasts, one hundredth of them due to be looked at (every green of
theirs is judged), nothing else to do. The sweep is the whole of it: long work, forecasts, looks, warnings,
mail. Times are the processor's own, the least of all rounds; queries are counted in the same rounds.
"""

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from time import perf_counter, process_time

from django.core.cache import cache
from django.db import connection
from django.db.models import OuterRef, Subquery
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from greens.actions import job, mail
from greens.choices import Role
from greens.models import Club, Establishment, Green, Membership, Normal, Notice, Person
from growin.actions import forecast, lookout, warning
from growin.models import KeptForecast, Lookout
from tests.bench.books import copy
from tests.cast import NORMALS_C

GREENS = 18
LAID = date(2025, 10, 20)
FAR_OFF = datetime(2100, 1, 1, tzinfo=UTC)


@dataclass(frozen=True)
class Sweep:
    """The least of all rounds: seconds in all and for each club, the longest task, queries."""

    clubs: int
    due: int
    seconds: float
    longest_task_s: float
    queries: int

    @property
    def per_club_ms(self) -> float:
        return self.seconds * 1000 / self.clubs


def furnished(count: int) -> None:
    """So many clubs, each with a head greenkeeper, 18 laid greens and their forecasts of today."""
    clubs = Club.objects.bulk_create(
        Club(slug=f"club-{n}", name=f"Club {n}", latitude_deg=54) for n in range(count)
    )
    Normal.objects.bulk_create(
        Normal(club=club, month=month, mean_c=mean, rain_mm=70)
        for club in clubs
        for month, mean in enumerate(NORMALS_C, start=1)
    )
    people = Person.objects.bulk_create(
        Person(email=f"{club.slug}@example.org", name=f"Head of {club.name}", password="!") for club in clubs
    )
    Membership.objects.bulk_create(
        Membership(club=club, person=one, name=one.name, role=Role.HEAD)
        for club, one in zip(clubs, people, strict=True)
    )
    greens = Green.objects.bulk_create(
        Green(club=club, name=f"Green {n}", position=n, area_dm2=45_000)
        for club in clubs
        for n in range(1, GREENS + 1)
    )
    lay(greens)
    lookout.begin_looking()


def lay(greens: list[Green]) -> None:
    rebuilds = Establishment.objects.bulk_create(
        Establishment(
            green=green, number=1, kind="turf_supplied", species="fescue/bent", established_on=LAID,
            works_started_on=LAID - timedelta(days=40),
        )
        for green in greens
    )  # fmt: skip
    KeptForecast.objects.bulk_create(
        KeptForecast(establishment=one, as_of=one.green.club.local_today(), mark=one.green.club.trail_mark)
        for one in rebuilds
    )


#: A club with all that is its own: the columns that name another row, and what there may be one only of.
COPIED = {
    Club: ({}, {"slug": "slug || '-{turn}'", "trail_mark": "abs(random())"}),
    Normal: ({"club_id": Club}, {}),
    Person: ({}, {"email": "'{turn}-' || email"}),
    Membership: ({"club_id": Club, "person_id": Person}, {}),
    Green: ({"club_id": Club}, {}),
    Establishment: ({"green_id": Green}, {}),
    KeptForecast: ({"establishment_id": Establishment}, {}),
}


def grow(times: int) -> None:
    """The clubs there are once more and again, until there are so many times as many."""
    highest = {model: model.objects.order_by("-pk")[0].pk for model in COPIED}
    for turn in range(1, times):
        for model, (parents, other) in COPIED.items():
            ids = {"id": model, **parents}
            shifts = {name: turn * highest[one] for name, one in ids.items()}
            said = {name: words.format(turn=turn) for name, words in other.items()}
            copy(model, shifts, highest[model], **said)
    club = Club.objects.filter(greens__establishments=OuterRef("establishment"))
    KeptForecast.objects.update(mark=Subquery(club.values("trail_mark")))
    lookout.begin_looking()


def make_due(count: int) -> None:
    """The first so many clubs are due, nothing is known or worked out of them; the others were looked at."""
    cache.clear()
    Notice.objects.all().delete()
    now, mark = timezone.now(), Subquery(Club.objects.filter(pk=OuterRef("club")).values("trail_mark"))
    Lookout.objects.update(look_at=FAR_OFF, looked_at=now, known={}, claimed_at=None, mark=mark)
    first = list(Lookout.objects.order_by("pk").values_list("pk", flat=True)[:count])
    Lookout.objects.filter(pk__in=first).update(look_at=now)


def tasks() -> list[float]:
    """A whole sweep, as the clock wakes it; the seconds of each of its tasks."""
    took, looked = [], 1
    for task in (job.sweep, forecast.queue_due, warning.go_on):
        took.append(seconds_of(task)[0])
    while looked:
        seconds, looked = seconds_of(lookout.look_round)
        took.append(seconds)
    return [*took, seconds_of(mail.send_due)[0]]


def seconds_of(task) -> tuple[float, int]:
    began = perf_counter()
    done = task()
    return perf_counter() - began, done


def measured(due: int, rounds: int = 1) -> Sweep:
    """The least of so many rounds over the clubs there are."""
    seconds, longest = [], []
    for _ in range(rounds):
        make_due(due)
        with CaptureQueriesContext(connection) as asked:
            began = process_time()
            longest.append(max(tasks()))
            seconds.append(process_time() - began)
    return Sweep(Club.objects.count(), due, min(seconds), min(longest), len(asked))


def table(found: list[Sweep]) -> str:
    lines = [f"{'clubs':>7}{'due':>6}{'s':>8}{'ms a club':>11}{'longest task, s':>17}{'queries':>9}"]
    for one in found:
        lines.append(
            f"{one.clubs:>7}{one.due:>6}{one.seconds:>8.2f}{one.per_club_ms:>11.2f}"
            f"{one.longest_task_s:>17.2f}{one.queries:>9}"
        )
    return "\n".join(lines)
