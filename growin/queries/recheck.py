"""Looking again at greens in play: days 7, 14 and 28 from their real first day."""

from collections.abc import Mapping
from datetime import date, timedelta

from django.db.models import Max

from greens.models import ReadingSet
from growin.agronomy.in_play import Recheck, looks
from growin.agronomy.measures import MEASURES
from growin.queries.decision import PlayState

#: No reading from before then answers a look that is still asked for.
LONGEST = timedelta(days=60)


def rechecks(plays: Mapping[int, PlayState], on: date) -> dict[int, Recheck]:
    """The look that is due or comes next on each green in play, by the rebuild's id; one query."""
    return {pk: found[0] for pk, found in all_looks(plays, on).items()}


def all_looks(plays: Mapping[int, PlayState], on: date) -> dict[int, list[Recheck]]:
    """The look that is due and all to come on each green in play, by the rebuild's id; one query."""
    opened = {pk: play.since for pk, play in plays.items() if play.since}
    sets = ReadingSet.objects.filter(
        establishment__in=opened, measure__in=MEASURES, on__range=(on - LONGEST, on), taken_back_at=None
    )
    read = dict(sets.order_by().values_list("establishment").annotate(last=Max("on")))
    found = {pk: looks(since, on, read.get(pk)) for pk, since in opened.items()}
    return {pk: some for pk, some in found.items() if some}
