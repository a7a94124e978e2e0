"""The greens of a club on a day: in play or not, the state of the day, the last 30 days."""

from dataclasses import dataclass
from datetime import date

from greens.choices import DayStateKind
from greens.models import Club, DayState, Green
from greens.queries import day_state, greens
from growin.agronomy.in_play import Month, month_of
from growin.queries import decision as decisions
from growin.queries.decision import PlayState, stands

WORDS = dict(DayStateKind.choices)


@dataclass(frozen=True)
class Standing:
    """One green on a day."""

    green: Green
    play: PlayState
    state: DayState | None
    month: Month

    @property
    def counts(self) -> list[tuple[str, int]]:
        """Days of each state in the last 30, by its words."""
        return [(WORDS[state], count) for state, count in self.month.counts.items()]


def standings(club: Club, on: date) -> list[Standing]:
    """Every green of the club, those in play first; five queries."""
    rebuilds = greens.current_establishments(club)
    made = decisions.by_establishment(club, on)
    states, months = day_state.on_day(club, on), day_state.months(club, on)
    found = []
    for green in greens.of(club):
        state, rebuild = states.get(green.pk), rebuilds.get(green.pk)
        play = stands(made.get(rebuild.pk, []) if rebuild else [], state, on)
        found.append(Standing(green, play, state, months.get(green.pk) or month_of([], on)))
    return sorted(found, key=lambda one: not one.play.is_open)
