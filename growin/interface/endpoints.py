"""Every address that programs may ask, in one table: doors, answers and description are made from it."""

from collections.abc import Callable
from dataclasses import dataclass

from django.http import QueryDict

from greens.models import Club
from growin.interface import diary, judged, place, programme, weather
from growin.interface.asked import GREEN, KIND, MEASURE, PAGED, SINCE, UNTIL, USUAL, Parameter, asked
from growin.queries.listed import Piece


@dataclass(frozen=True)
class Endpoint:
    """``route`` stands below the club's address. ``ask(club, **rows, **parameters)`` answers with one
    ``gives``, or, where the parameters are those of a list, with a piece of many."""

    name: str
    route: str
    words: str
    gives: type
    ask: Callable
    parameters: tuple[Parameter, ...] = ()

    @property
    def is_list(self) -> bool:
        return all(one in self.parameters for one in PAGED)

    def answer(self, club: Club, query: QueryDict, **rows) -> object:
        """What is told: one thing, or a list with where to go on."""
        said = asked(club, query, self.parameters)
        if not self.is_list:
            return self.ask(club, **rows, **said)
        piece: Piece = self.ask(club, **rows, **said | {"limit": said["limit"] or USUAL})
        return {"items": piece.rows, "next": piece.next and str(piece.next)}


ENDPOINTS = (
    Endpoint("club", "", "The club", place.Club, place.club),
    Endpoint("greens", "greens/", "Its greens", place.Green, place.greens_of, PAGED),
    Endpoint(
        "rebuilds", "rebuilds/", "Rebuilds of its greens", place.Rebuild, place.rebuilds_of, (GREEN, *PAGED)
    ),
    Endpoint(
        "programme",
        "greens/<int:green_id>/programme/",
        "The programme in force of a green",
        programme.Programme,
        programme.programme_of,
    ),
    Endpoint(
        "verdict",
        "greens/<int:green_id>/verdict/",
        "Whether a green may open",
        judged.Verdict,
        judged.verdict_on,
    ),
    Endpoint(
        "forecast",
        "greens/<int:green_id>/forecast/",
        "When a green may be ready: the newest forecast",
        judged.Forecast,
        judged.forecast_of,
    ),
    Endpoint(
        "diary",
        "diary/",
        "The diary, the newest day first",
        diary.Entry,
        diary.entries_of,
        (SINCE, UNTIL, GREEN, KIND, *PAGED),
    ),
    Endpoint(
        "readings",
        "readings/",
        "Sets of readings, the newest day first",
        diary.Readings,
        diary.readings_of,
        (SINCE, UNTIL, GREEN, MEASURE, *PAGED),
    ),
    Endpoint(
        "weather",
        "weather/",
        "Days of weather, the newest first",
        weather.WeatherDay,
        weather.days_of,
        (SINCE, UNTIL, *PAGED),
    ),
    Endpoint(
        "decisions",
        "decisions/",
        "Openings and closings, in the order they were made",
        judged.Decision,
        judged.decisions_of,
        PAGED,
    ),
)
