"""Greens in play whose programme ends before long: the year to come is offered to be drawn."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Max, Q

from greens.models import Club, Establishment
from growin.agronomy.plain_words import dated
from growin.agronomy.programme import FAR
from growin.models import Programme
from growin.queries.decision import by_establishment, open_since
from growin.queries.lag import KEPT_FOR
from growin.queries.programme import newest
from growin.queries.remembered import kept_while_the_frame_stands

#: With less of the programme to come the next year is offered (our judgement).
LEAST_AHEAD = timedelta(days=270)


@dataclass(frozen=True)
class RunOut:
    """A green in play whose weekly work is planned ``until`` a day and no further, seen ``on`` a day."""

    establishment: Establishment
    until: date
    on: date

    @property
    def words(self) -> str:
        """ "ended on Thu 4 June 2026"; "ends on …" while that day is to come."""
        return f"{'ends' if self.until >= self.on else 'ended'} on {dated(self.until)}"


@kept_while_the_frame_stands
def run_out(club: Club, establishments: Iterable[Establishment], on: date) -> list[RunOut]:
    """Of these rebuilds those that are open and have little to come; two queries.

    Where the head greenkeeper has kept the programme against a new drawing, a while is left in peace.
    """
    opened = {pk for pk, made in by_establishment(club, on).items() if open_since(made, on)}
    rebuilds = {one.pk: one for one in establishments if one.pk in opened}
    if not rebuilds:
        return []
    in_force = Programme.objects.filter(pk__in=newest(rebuilds.values()))
    near = ~Q(steps__kind__in=FAR) & Q(steps__is_dropped=False)
    ends = in_force.exclude(kept_on__gt=on - KEPT_FOR).annotate(until=Max("steps__likely", filter=near))
    rows = ends.order_by("establishment__green__position").values_list("establishment", "until")
    return [RunOut(rebuilds[pk], until, on) for pk, until in rows if until and until < on + LEAST_AHEAD]
