"""The diary beside the programme: what an entry answered, what it may answer, what to be careful about."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from django.core.paginator import Page, Paginator
from django.db.models import Prefetch, QuerySet

from greens.models import Club, Entry, Establishment, Green, WeatherDay
from greens.queries import diary, settings, weather
from greens.queries import greens as places
from growin.agronomy.cautions import Caution, cautions_for
from growin.agronomy.works import WORKS, Work
from growin.models import StepAnswer
from growin.queries import programme
from growin.queries.remembered import name_of, remembered
from growin.queries.standing import Standing

NOT_DONE = "not_done"
ENTRIES_A_PAGE = 20
#: So many steps of a kind are offered for a green (our judgement: more are not read on a phone).
NEAREST = 2


def with_answers(entries: QuerySet[Entry]) -> QuerySet[Entry]:
    """Entries as the diary shows them, with the steps they answered; a fixed number of queries."""
    answers = StepAnswer.objects.select_related("establishment__green")
    return diary.with_lines(entries).prefetch_related(Prefetch("step_answers", answers))


def listed(entries: QuerySet[Entry]) -> QuerySet[Entry]:
    """Entries for the list, with what was done differently from a step; a fixed number of queries."""
    differing = StepAnswer.objects.exclude(differs="")
    return diary.listed(entries).prefetch_related(Prefetch("step_answers", differing))


def page_of(club: Club, asked: Mapping, number: str | None) -> Page:
    """A page of the entries that were asked for, newest first."""
    found = diary.sought(diary.of(club), **asked)
    what = ("diary", name_of(asked))
    count = remembered(club, (*what, "count"), found.count)
    page = Paginator(range(count), ENTRIES_A_PAGE).get_page(number)
    few = listed(found)[page.start_index() - 1 if count else 0 : page.end_index()]
    page.object_list = remembered(club, (*what, page.number), lambda: list(few))
    return page


def one(club: Club, pk: int) -> Entry:
    rows = club.entries.select_related("taken_back_by", "club").prefetch_related("revisions__replaced_by")
    return with_answers(rows).get(pk=pk)


def offered(club: Club, work: Work, on: date) -> list[Standing]:
    """Steps on the club's greens that this work may answer; for work that was not done, all work due."""
    if work.key == NOT_DONE:
        return [one for one in programme.due(club, on) if one.step.kind in WORKS]
    return programme.matches(places.current_establishments(club).values(), work.key, on)


def offered_to(entry: Entry) -> list[Standing]:
    """Steps that this entry may still answer, on its own greens."""
    if entry.taken_back_at or entry.kind == NOT_DONE:
        return []
    answered = {one.establishment_id for one in entry.step_answers.all()}
    matches = programme.matches(rebuilds_of(entry), entry.kind, entry.on)
    return nearest([one for one in matches if one.establishment.pk not in answered], [])


def nearest(steps: Iterable[Standing], greens: Sequence[Green], key: str | None = None) -> list[Standing]:
    """The few nearest steps of a green in each kind, and the one of that key; only these greens if any."""
    kept: list[Standing] = []
    for one in steps:
        of_green = sum(
            other.establishment == one.establishment and other.step.kind == one.step.kind for other in kept
        )
        if (not greens or one.green in greens) and (of_green < NEAREST or one.step.key == key):
            kept.append(one)
    return kept


def rebuilds_of(entry: Entry) -> list[Establishment]:
    greens = [line.green for line in entry.lines.all()]
    return list(places.establishments_on(greens, entry.on).values())


def cautions(club: Club, work: Work, greens: Iterable[Green], on: date) -> tuple[Caution, ...]:
    """What to be careful about; conditions fall away where that day's measured weather settles them."""
    metres = [green.distance_to_water_m for green in greens if green.distance_to_water_m is not None]
    return cautions_for(
        work,
        distance_to_water_m=float(min(metres)) if metres else None,
        settings=settings.in_force(club, on),
        **measured(weather.day(club, on)),
    )


def measured(day: WeatherDay | None) -> dict[str, float]:
    """Minimum and rain of a day, only where they were measured."""
    if day is None or day.is_estimated:
        return {}
    known = {"day_min_c": day.min_c, "rain_mm": day.rain_mm}
    return {name: float(value) for name, value in known.items() if value is not None}
