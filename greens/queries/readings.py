"""Sets of readings of a club."""

from collections.abc import Iterable
from datetime import date, timedelta
from typing import NamedTuple
from uuid import UUID

from django.db.models import Exists, Max, OuterRef, Q, QuerySet

from greens.models import Club, Establishment, Green, ReadingSet
from growin.agronomy.measures import MEASURES, Measure

#: Readings so much older than what is asked for say nothing of the green any more (our judgement).
TOLD = timedelta(days=366)


class Read(NamedTuple):
    """One set of readings, as far as it is judged."""

    establishment_id: int
    measure: str
    on: date
    values: list
    protocol: dict


def of(club: Club) -> QuerySet[ReadingSet]:
    """Sets that count: not taken back, newest first."""
    return club.reading_sets.filter(taken_back_at=None).select_related("green", "taken_by")


def sought(
    rows: QuerySet[ReadingSet],
    *,
    first: date | None = None,
    last: date | None = None,
    green: Green | None = None,
    measure: str | None = None,
) -> QuerySet[ReadingSet]:
    """Sets that fit everything that was asked for."""
    wanted = {"on__gte": first, "on__lte": last, "green": green, "measure": measure}
    return rows.filter(**{name: value for name, value in wanted.items() if value})


def one(club: Club, pk: int) -> ReadingSet:
    """Any set of the club, also one that was taken back."""
    return club.reading_sets.select_related("green", "taken_by", "logged_by").get(pk=pk)


def on_green(green: Green) -> QuerySet[ReadingSet]:
    return green.reading_sets.filter(taken_back_at=None).select_related("taken_by")


def of_establishment(establishment: Establishment) -> QuerySet[ReadingSet]:
    return establishment.reading_sets.filter(taken_back_at=None).select_related("taken_by")


def measures_read(establishments: Iterable[Establishment], first: date, last: date) -> dict[int, list[str]]:
    """What was read on each of these rebuilds in a span of days, in order, by its id; one query."""
    rows = ReadingSet.objects.filter(
        establishment__in=list(establishments), taken_back_at=None, on__range=(first, last)
    )
    found: dict[int, list[str]] = {}
    for pk, measure in rows.order_by("on", "pk").values_list("establishment", "measure"):
        found.setdefault(pk, []).append(measure)
    return found


def first_day(green: Green) -> date | None:
    """The day of the first set of a green that counts; one query."""
    kept = ReadingSet.objects.filter(green=green, taken_back_at=None)
    return kept.order_by("on").values_list("on", flat=True).first()


def in_whole(club: Club, pk: int) -> ReadingSet:
    """A set with its people, revisions and photographs, in three queries."""
    rows = club.reading_sets.select_related(
        "green__club", "establishment__green__club", "taken_by", "logged_by", "taken_back_by"
    )
    return rows.prefetch_related("revisions__replaced_by", "files").get(pk=pk)


def arrived(club: Club, client_id: UUID) -> ReadingSet | None:
    """The set that this club already keeps under the sender's own id."""
    return club.reading_sets.filter(client_id=client_id).select_related("green").first()


def measure(club: Club, key: str) -> Measure:
    """The measure of an address; raises ReadingSet.DoesNotExist when there is none of that name."""
    if key not in MEASURES:
        raise ReadingSet.DoesNotExist(key)
    return MEASURES[key]


def until(
    establishments: Iterable[Establishment],
    as_of: date,
    since: date | None = None,
    measures: Iterable[str] = MEASURES,
) -> list[Read]:
    """Sets of these establishments that count, taken up to a day, oldest first; one query.

    All measures, or some of them. Of what was read before ``since`` only the last day of each measure,
    where nothing newer stands and it is no older than :data:`TOLD`.
    """
    rows = ReadingSet.objects.filter(establishment__in=establishments, taken_back_at=None, on__lte=as_of)
    if measures is not MEASURES:
        rows = rows.filter(measure__in=measures)
    if since:
        alike = {name: OuterRef(name) for name in ("green", "establishment", "measure")}
        newer = ReadingSet.objects.filter(
            **alike, taken_back_at=None, on__gt=OuterRef("on"), on__lte=as_of
        ).order_by()
        rows = rows.filter(Q(on__gte=since) | ~Exists(newer), on__gte=since - TOLD, measure__in=measures)
    return [Read(*row) for row in rows.order_by("on", "pk").values_list(*Read._fields)]


def last_days(green: Green) -> dict[str, date]:
    """The last day on which each measure was read on a green; one query."""
    rows = on_green(green).order_by().values_list("measure").annotate(last=Max("on"))
    return dict(rows)


def last_days_of_club(club: Club) -> dict[str, date]:
    """The last day on which each measure was read anywhere in the club, in the last two years; one query."""
    lately = club.local_today() - 2 * TOLD
    rows = ReadingSet.objects.filter(
        green__in=club.greens.values("pk"), measure__in=MEASURES, on__gte=lately, taken_back_at=None
    ).order_by()
    return dict(rows.values_list("measure").annotate(last=Max("on")))


def of_measure(green: Green, key: str) -> QuerySet[ReadingSet]:
    """Sets of a green that count, of one measure where one is named, newest first."""
    rows = on_green(green)
    return rows.filter(measure=key) if key in MEASURES else rows


def last_of(green: Green, measure: Measure) -> ReadingSet | None:
    """The newest set of a measure on a green: the next one is taken as it was."""
    return of_measure(green, measure.key).first()
