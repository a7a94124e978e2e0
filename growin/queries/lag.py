"""Programmes that the weather has left behind: a new drawing would move steps by more than a week."""

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import NamedTuple

from django.core.cache import cache
from django.db.models import Exists, OuterRef

from greens.models import Club, Establishment
from greens.queries import weather
from greens.queries.spans import Span
from growin.agronomy.plain_words import counted
from growin.agronomy.programme.done import Done, grew_in_long_ago
from growin.agronomy.programme.shift import furthest, warmth
from growin.models import Programme, ProgrammeStep
from growin.queries import drawn, facts
from growin.queries.decision import by_establishment, open_since
from growin.queries.done import work_of
from growin.queries.programme import newest
from growin.queries.remembered import kept_while_the_frame_stands, kept_while_unchanged

#: Our judgement: a week is worth a look; weather of less than two days moves no step so far.
WORTH_A_LOOK_DAYS, LEAST_WEATHER_DAYS = 7, 2
#: Whoever kept the old programme is left in peace for so long (our judgement).
KEPT_FOR = timedelta(days=14)
DAY_S = 86_400
Moved = tuple[int, float]
Means = tuple[tuple[date, float], ...]
WORK = ("as_of", "steps", "passed", "last", "cuts")


@dataclass(frozen=True)
class Lag:
    """A programme in force: the most ``days`` that a new drawing would move a step to come, and how
    many days the green's clock is ``ahead`` (behind, if negative)."""

    establishment: Establishment
    days: int
    ahead: float

    @property
    def words(self) -> str:
        """ "about 9 days ahead"."""
        return f"about {counted(abs(round(self.ahead)), 'days')} {'ahead' if self.ahead > 0 else 'behind'}"


@kept_while_unchanged
def lags(club: Club, establishments: Iterable[Establishment], on: date) -> list[Lag]:
    """Of these rebuilds of a club those worth a look; six queries, one more where news must be drawn."""
    rebuilds = {one.pk: one for one in establishments}
    drawn_then = versions(club, list(rebuilds.values()), on)
    if not drawn_then:
        return []
    work = work_of([rebuilds[one.of] for one in drawn_then], on)
    moved = _moved_once({one: work[one.of] for one in drawn_then})
    found = [Lag(rebuilds[one.of], *moved[one.pk]) for one in drawn_then]
    return [one for one in found if abs(one.days) > WORTH_A_LOOK_DAYS]


class Version(NamedTuple):
    """A programme in force, ``of`` a rebuild, and the means of the days that its drawing asks for, °C."""

    pk: int
    of: int
    issued_at: datetime
    means: Means


@kept_while_the_frame_stands
def versions(club: Club, establishments: Iterable[Establishment], on: date) -> list[Version]:
    """Those with steps to come that nobody has just kept as they are; four queries."""
    plays = by_establishment(club, on)
    rebuilds = {one.pk: one for one in establishments if not goes_by_the_calendar(one, plays, on)}
    coming = ProgrammeStep.objects.filter(programme=OuterRef("pk"), is_dropped=False, likely__gt=on)
    in_force = Programme.objects.filter(Exists(coming), pk__in=newest(rebuilds.values()))
    rows = in_force.exclude(kept_on__gt=on - KEPT_FOR).values_list("pk", "establishment", "issued_at")
    spans = {pk: facts.days_measured(one, on) for pk, one in rebuilds.items()}
    means = weather.means(club, *{span for some in spans.values() for span in some}) if rows else {}
    return [Version(pk, of, at, _within(spans[of], means)) for pk, of, at in rows]


def goes_by_the_calendar(establishment: Establishment, plays: Mapping[int, list], on: date) -> bool:
    """Whether no weather moves a step any more: the green is in play, and has grown in long ago."""
    is_open = open_since(plays.get(establishment.pk, ()), on) is not None
    return is_open and grew_in_long_ago(establishment.established_on, on)


def _within(spans: Iterable[Span], means: Mapping[date, float]) -> Means:
    return tuple((day, mean) for day, mean in sorted(means.items()) if any(a <= day <= b for a, b in spans))


def _moved_once(asked: Mapping[Version, Done]) -> dict[int, Moved]:
    """What each would be moved by, by its id; the same weather and work are drawn once a day."""
    keys = {one: _key(one, work) for one, work in asked.items()}
    known = cache.get_many(keys.values())
    news = {one.pk: one for one, key in keys.items() if key not in known}
    then = Programme.objects.in_bulk(news) if news else {}
    moved = {keys[one]: _moved(then[pk], one.means, asked[one]) for pk, one in news.items()}
    cache.set_many(moved, DAY_S)
    return {one.pk: (known | moved)[key] for one, key in keys.items()}


def _key(version: Version, work: Done) -> str:
    seen = [version.means, work.as_of, sorted(work.steps.items()), sorted(work.passed), work.cuts]
    mark = hashlib.sha256(repr([*seen, sorted(work.last.items())]).encode()).hexdigest()
    return f"lag:{version.pk}:{version.issued_at.timestamp()}:{mark}"


def _moved(version: Programme, means: Means, work: Done) -> Moved:
    old = drawn.as_it_was(version)
    if old is None:
        return 0, 0.0
    lately = replace(old.done, **{name: getattr(work, name) for name in WORK})
    new = replace(old, climate=replace(old.climate, daily=dict(means)), done=lately)
    ahead = warmth(old, new, work.as_of).days
    return (furthest(old, new, work.as_of) if abs(ahead) >= LEAST_WEATHER_DAYS else 0), ahead
