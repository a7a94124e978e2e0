"""The greens of a club at a glance, and all that one green's page shows."""

from dataclasses import dataclass
from datetime import date, timedelta

from greens.models import Club, Establishment, Green
from greens.queries import diary, greens, record
from greens.queries.day_state import months
from growin.agronomy.in_play import Month, Recheck
from growin.agronomy.verdict import Verdict
from growin.evidence import verdict_of, verdicts
from growin.queries import programme, water
from growin.queries.decision import PlayState, play_state, play_states
from growin.queries.recheck import rechecks
from growin.queries.remembered import kept_while_unchanged
from growin.queries.standing import Standing
from growin.queries.story import Had, Story, StoryTable, had, story_of

SEASON = timedelta(days=365)
STEPS_SHOWN, ENTRIES_SHOWN = 5, 5


@dataclass(frozen=True)
class Glance:
    """One green in the list: the place, its newest rebuild, how it stands in play, its verdict."""

    green: Green
    establishment: Establishment | None
    play: PlayState | None
    verdict: Verdict | None
    month: Month | None = None

    @property
    def is_in_play(self) -> bool:
        return self.play is not None and self.play.is_open


@kept_while_unchanged
def glances(club: Club, on: date) -> list[Glance]:
    """Every green of a club in a fixed number of queries."""
    rebuilt, judged = greens.current_establishments(club), verdicts(club, on)
    plays, lately = play_states(club, on), months(club, on)
    return [
        Glance(
            green, one := rebuilt.get(green.pk), plays.get(one.pk) if one else None, judged.get(green.pk),
            lately.get(green.pk),
        )
        for green in greens.of(club)
    ]  # fmt: skip


@dataclass(frozen=True)
class Page:
    """What a green's page says of its newest rebuild; ``days_down`` since laying or sowing."""

    establishment: Establishment
    glance: Glance
    days_down: int | None
    had: Had
    coming: tuple[Standing, ...]
    entries: tuple
    advice: object | None
    water: water.Need | None
    recheck: Recheck | None = None


@kept_while_unchanged
def page_of(green: Green, on: date) -> Page | None:
    """One green as it stands on a day; none before it has been rebuilt."""
    rebuilt = greens.current_establishment(green)
    if rebuilt is None:
        return None
    laid = rebuilt.established_on
    since = max(on - SEASON, rebuilt.works_started_on)
    glance = Glance(
        green, rebuilt, play_state(rebuilt, on), verdict_of(rebuilt, on), months(green.club, on).get(green.pk)
    )
    return Page(
        establishment=rebuilt,
        glance=glance,
        days_down=(on - laid).days if laid else None,
        had=had(green, since, on),
        coming=tuple(programme.next_steps(rebuilt, on, STEPS_SHOWN)),
        entries=tuple(diary.on_green(diary.of(green.club), green).select_related("done_by")[:ENTRIES_SHOWN]),
        advice=record.advice_on(green).filter(on__lte=on).first(),
        water=water.need(green, on),
        recheck=rechecks({rebuilt.pk: glance.play}, on).get(rebuilt.pk),
    )


@kept_while_unchanged
def story(green: Green, on: date) -> Story | None:
    """What the strip of a green draws; none before it has been rebuilt."""
    rebuilt = greens.current_establishment(green)
    return story_of(rebuilt, on) if rebuilt else None


@kept_while_unchanged
def story_table(green: Green, on: date) -> StoryTable | None:
    """The same month by month; none without a day to tell of."""
    told = story(green, on)
    if told is None or not told.days:
        return None
    return StoryTable(told.days[0].on, tuple(told.marks), tuple(told.months))
