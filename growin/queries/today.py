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
from growin.queries.together import Together, readings_alike, together, weather_can_stop

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
    alike: frozenset[str] = frozenset()

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
    def own_jobs(self) -> list[Line]:
        """Those that are not due alike on other greens."""
        return [one for one in self.jobs if one.step.key not in self.alike]

    @property
    def jobs_alike(self) -> list[Line]:
        return [one for one in self.jobs if one.step.key in self.alike]

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
    together: tuple[Together, ...] = ()

    @property
    def to_walk(self) -> list[GreenToday]:
        """Greens with a sward that nobody has walked yet."""
        return [row for row in self.greens if row.is_laid and not row.is_walked]

    @property
    def stopped(self) -> list[Line]:
        """What is due that weather can stop."""
        return weather_can_stop(line for row in self.greens for line in row.lines)

    @property
    def of_several(self) -> bool:
        """Whether something can be said for several greens at once."""
        return len([row for row in self.greens if row.is_laid]) > 1

    @property
    def readings_alike(self) -> dict[str, int]:
        """Readings due on several greens, with how many."""
        return readings_alike(line for row in self.greens for line in row.lines)

    @property
    def sheet_cautions(self) -> list[Caution]:
        """All there is to mind today, once, in short for the sheet on the wall."""
        due = (one for row in self.greens for line in row.lines for one in line.folded)
        return list({one.key: one for one in due}.values())

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
    alike = together(line for row in due.values() for line in row)
    grouped = {line.standing.establishment.pk: set() for group in alike for line in group.lines}
    for line in (line for group in alike for line in group.lines):
        grouped[line.standing.establishment.pk].add(line.step.key)
    walks = walked(club, on)
    again = rechecks(plays, on)
    rows = [
        GreenToday(
            one,
            tuple(due[one.pk]),
            one.green_id in walks,
            plays.get(one.pk),
            again.get(one.pk),
            frozenset(grouped.get(one.pk, ())),
        )
        for one in rebuilds
    ]
    return Day(tuple(sorted(rows, key=lambda one: (not one.is_late, one.green.position))), known, alike)


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
