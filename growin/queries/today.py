"""The day's page: every rebuilt green with what is asked there, what it had today, how it stands in play."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from greens.models import Club, Entry, Establishment, WeatherDay
from greens.queries import diary, greens, weather
from growin.agronomy.cautions import Caution
from growin.agronomy.in_play import OVERDUE, Recheck
from growin.agronomy.programme import IN_PLAY, READING
from growin.queries import programme
from growin.queries.decision import PlayState, play_states
from growin.queries.line import OF_THE_PLACE, Line, lines, round_of
from growin.queries.recheck import rechecks
from growin.queries.remembered import kept_while_unchanged
from growin.queries.standing import Standing

FORTNIGHT = timedelta(days=14)
#: Steps of the programme that stand by the real first day in play instead.
RECHECK = "recheck-"


@dataclass(frozen=True)
class GreenToday:
    """One green on one day."""

    establishment: Establishment
    lines: tuple[Line, ...]
    is_walked: bool
    play: PlayState | None
    recheck: Recheck | None = None

    @property
    def green(self):
        return self.establishment.green

    @property
    def is_late(self) -> bool:
        return any(one.standing.is_late for one in self.lines) or self.is_recheck_late

    @property
    def is_recheck_late(self) -> bool:
        return self.recheck is not None and self.recheck.state == OVERDUE

    @property
    def is_laid(self) -> bool:
        return self.establishment.established_on is not None

    @property
    def jobs(self) -> tuple[Line, ...]:
        """What is asked besides the walk and the readings, which stand by themselves."""
        apart = ("walk", READING)
        return tuple(
            one for one in self.lines if one.step.kind not in apart and not one.step.key.startswith(RECHECK)
        )

    @property
    def readings(self) -> tuple[Line, ...]:
        return tuple(one for one in self.lines if one.is_reading)

    @property
    def readings_late(self) -> bool:
        return any(one.standing.is_late for one in self.readings)

    @property
    def readings_cautions(self) -> list[Caution]:
        """What to mind at any of the readings, once."""
        return list({one.key: one for line in self.readings for one in line.cautions}.values())

    @property
    def walk(self) -> Line | None:
        return next((one for one in self.lines if one.step.kind == "walk"), None)


@dataclass(frozen=True)
class Day:
    """The greens of a club on one day, those with late steps first, and the day's weather."""

    greens: tuple[GreenToday, ...]
    weather: WeatherDay | None

    @property
    def pressing(self) -> list[Caution]:
        """What the day's weather says about the work that is due, once for all greens."""
        due = (one for row in self.greens for line in row.lines for one in line.pressing)
        return list({one.key: one for one in due if one.key not in OF_THE_PLACE}.values())


@kept_while_unchanged
def of_club(club: Club, on: date) -> Day:
    """The whole page in a fixed number of queries."""
    known = weather.day(club, on)
    rebuilds = greens.current_establishments(club).values()
    due, plays = defaultdict(list), play_states(club, on)
    for line in lines(asked(rebuilds, on, plays), round_of(club, on, known)):
        due[line.standing.establishment.pk].append(line)
    walks = walked(club, on)
    again = rechecks(plays, on)
    rows = [
        GreenToday(one, tuple(due[one.pk]), one.green_id in walks, plays.get(one.pk), again.get(one.pk))
        for one in rebuilds
    ]
    return Day(tuple(sorted(rows, key=lambda one: (not one.is_late, one.green.position))), known)


def asked(rebuilds: Iterable[Establishment], on: date, plays: Mapping[int, PlayState]) -> list[Standing]:
    """The steps that are asked for on a day; work of greens in play waits until they are open."""
    return [
        one
        for one in programme.due_on(rebuilds, on)
        if not waits_for_opening(one, plays.get(one.establishment.pk))
    ]


def waits_for_opening(standing: Standing, play: PlayState | None) -> bool:
    """Whether it is work of a green in play, and this one is not open yet."""
    return standing.step.key.startswith(IN_PLAY) and not (play and play.is_open)


@kept_while_unchanged
def over_limit(club: Club, on: date) -> list[Entry]:
    """What went over a limit in the last fortnight, as the head greenkeeper is told it."""
    return list(diary.over_limit(club, on - FORTNIGHT, on))


def walked(club: Club, on: date) -> set[int]:
    """Greens that were walked on a day, by their ids."""
    entries: list[Entry] = diary.of(club).filter(kind="walk", on=on)
    return set(entries.values_list("lines__green", flat=True))
