"""How the greens of a club stood, day by day."""

from collections import defaultdict
from datetime import date, timedelta

from django.db.models import QuerySet

from greens.models import Club, DayState, Green
from growin.agronomy.in_play import TREND_DAYS, Month, month_of


def of(club: Club) -> QuerySet[DayState]:
    return DayState.objects.filter(green__club=club)


def on_day(club: Club, on: date) -> dict[int, DayState]:
    """The state of every green that has one on that day, by the green's id; one query."""
    return {row.green_id: row for row in of(club).filter(on=on).select_related("by")}


def of_green_on(green: Green, on: date) -> DayState | None:
    return green.day_states.filter(on=on).select_related("by").first()


def states_of(green: Green, first: date, last: date) -> list[tuple[date, str]]:
    """Day and state of each day written down in a span of days, both included; one query."""
    return list(green.day_states.filter(on__range=(first, last)).order_by("on").values_list("on", "state"))


def months(club: Club, as_of: date) -> dict[int, Month]:
    """The last 30 days of every green against the 30 before, by the green's id; one query."""
    since = as_of - timedelta(days=2 * TREND_DAYS - 1)
    states = defaultdict(list)
    for green_id, on, state in (
        of(club).filter(on__range=(since, as_of)).values_list("green_id", "on", "state")
    ):
        states[green_id].append((on, state))
    return {green_id: month_of(dated, as_of) for green_id, dated in states.items()}
