"""Programmes that the weather has left behind: a new drawing would move steps by more than a week."""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta

from django.core.cache import cache
from django.db.models import Exists, OuterRef

from greens.models import Club, Establishment
from greens.queries import weather
from growin.agronomy.plain_words import counted
from growin.agronomy.programme.done import Done
from growin.agronomy.programme.shift import furthest, warmth
from growin.models import Programme, ProgrammeStep
from growin.queries import drawn, facts
from growin.queries.done import work_of
from growin.queries.programme import newest
from growin.queries.remembered import kept_while_unchanged

#: Our judgement: a week is worth a look; weather of less than two days moves no step so far.
WORTH_A_LOOK_DAYS, LEAST_WEATHER_DAYS = 7, 2
#: Whoever kept the old programme is left in peace for so long (our judgement).
KEPT_FOR = timedelta(days=14)
DAY_S = 86_400
Moved = tuple[int, float]
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
    """Of these rebuilds of a club those worth a look; four queries, drawn anew only after news."""
    rebuilds = {one.pk: one for one in establishments}
    in_force = Programme.objects.filter(pk__in=newest(rebuilds.values()))
    coming = ProgrammeStep.objects.filter(programme=OuterRef("pk"), is_dropped=False, likely__gt=on)
    looked_at = in_force.filter(Exists(coming)).exclude(kept_on__gt=on - KEPT_FOR)
    versions = list(looked_at.only("establishment", "issued_at", "issued_on", "inputs", "settings"))
    if not versions:
        return []
    spans = {pk: facts.days_measured(one, on) for pk, one in rebuilds.items()}
    means = weather.means(club, *{span for some in spans.values() for span in some})
    work = work_of(rebuilds.values(), on)
    found = []
    for one in versions:
        rebuilt = rebuilds[one.establishment_id]
        told = spans[rebuilt.pk]
        since = {
            day: mean for day, mean in means.items() if any(first <= day <= last for first, last in told)
        }
        found.append(Lag(rebuilt, *_moved_once(one, since, work[rebuilt.pk])))
    return [one for one in found if abs(one.days) > WORTH_A_LOOK_DAYS]


def _moved_once(version: Programme, means: dict[date, float], work: Done) -> Moved:
    seen = [sorted(means.items()), work.as_of, sorted(work.steps.items()), sorted(work.passed), work.cuts]
    mark = hashlib.sha256(repr([*seen, sorted(work.last.items())]).encode()).hexdigest()
    key = f"lag:{version.pk}:{version.issued_at.timestamp()}:{mark}"
    return cache.get_or_set(key, lambda: _moved(version, means, work), DAY_S)


def _moved(version: Programme, means: dict[date, float], work: Done) -> Moved:
    old = drawn.as_it_was(version)
    if old is None:
        return 0, 0.0
    lately = replace(old.done, **{name: getattr(work, name) for name in WORK})
    new = replace(old, climate=replace(old.climate, daily=means), done=lately)
    ahead = warmth(old, new, work.as_of).days
    return (furthest(old, new, work.as_of) if abs(ahead) >= LEAST_WEATHER_DAYS else 0), ahead
