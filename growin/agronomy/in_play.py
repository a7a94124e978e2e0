"""Once a green is open: the stop rule, the days it is looked at again, days closed and their trend.

The stop rule and the days of the recheck are our own judgement from trade practice.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy.plain_words import counted

STOP_RULE = (
    "Close the green, play it on alternate days or move the hole as soon as there is footprinting, a torn "
    "joint, or more than 5 % of it thin or wilting. Closed in the wet. No trolleys or competitions at first."
)
RECHECK_DAYS = (7, 14, 28)
OPEN = "open"
CLOSURES = ("frosted", "thawing", "waterlogged")
KEPT_OFF = (*CLOSURES, "temporary", "rested")
TREND_DAYS = 30
_CLEARLY = 3
DUE, OVERDUE, TO_COME = "due", "overdue", "to come"
#: Criteria that say nothing of a green in play: winter raises the height and ends growth every year.
NO_SIGN_IN_PLAY = frozenset({"gate", "height", "growth"})
#: The measure that the stop rule goes by, and how much of the green may show it, %.
STOP_MEASURE, STOP_PERCENT = "footprinting", 5
_LOOK_EARLY, _LOOK_ASKED = timedelta(days=2), timedelta(days=14)


def next_recheck(opened_on: date, as_of: date) -> date | None:
    """The next of days 7, 14 and 28 after opening; None when they are past."""
    due = (opened_on + timedelta(days=days) for days in RECHECK_DAYS)
    return next((one for one in due if one >= as_of), None)


@dataclass(frozen=True)
class Recheck:
    """A look at a green in play: its day, which ``day`` in play that is, and how it stands."""

    on: date
    day: int
    state: str

    @property
    def is_asked(self) -> bool:
        """Whether it is due or late."""
        return self.state != TO_COME


def recheck(opened_on: date, as_of: date, read_on: date | None) -> Recheck | None:
    """The look that is due, else the next to come; None when all are done or long past.

    Readings taken two days before a look or later answer it; it is asked for until the next one, or
    for two weeks. ``read_on`` is the last day on which anything was read.
    """
    return next(iter(looks(opened_on, as_of, read_on)), None)


def looks(opened_on: date, as_of: date, read_on: date | None) -> list[Recheck]:
    """The look that is due, if any, and all that are to come."""
    begun = [one for one in RECHECK_DAYS if opened_on + timedelta(days=one) - _LOOK_EARLY <= as_of]
    later = (one for one in RECHECK_DAYS if one not in begun)
    found = [Recheck(opened_on + timedelta(days=one), one, TO_COME) for one in later]
    if begun and _is_open(opened_on + timedelta(days=begun[-1]), as_of, read_on):
        on = opened_on + timedelta(days=begun[-1])
        found.insert(0, Recheck(on, begun[-1], OVERDUE if as_of > on + _LOOK_EARLY else DUE))
    return found


def _is_open(on: date, as_of: date, read_on: date | None) -> bool:
    return (read_on is None or read_on < on - _LOOK_EARLY) and as_of <= on + _LOOK_ASKED


def is_safety_closure(state: str) -> bool:
    """Whether a state of the day shuts the green whatever was decided: frost, thaw, standing water."""
    return state in CLOSURES


def is_sign_in_play(criterion: str) -> bool:
    """Whether a bar that is lost says something of a green in play."""
    return criterion not in NO_SIGN_IN_PLAY


def is_at_stop_rule(shares_percent: Sequence[float]) -> bool:
    """Whether a set of readings shows more footprints, thin or wilting grass than the stop rule allows."""
    return max(shares_percent, default=0) > STOP_PERCENT


@dataclass(frozen=True)
class Month:
    """The states of the last 30 days: days per state, days kept off, and the same of the 30 before."""

    counts: dict[str, int]
    days: int
    closed: int
    closed_before: int
    days_before: int

    @property
    def words(self) -> str:
        """How it stands and which way it goes, in two sentences."""
        if not self.days:
            return f"No state was written down in the last {TREND_DAYS} days."
        return f"Kept off on {self.closed} of {counted(self.days, 'days')} written down. {self._trend()}"

    def _trend(self) -> str:
        if not self.days_before:
            return f"The {TREND_DAYS} days before are not known."
        change = self.closed - self.closed_before
        if abs(change) < _CLEARLY:
            return f"About as the {TREND_DAYS} days before."
        which_way = "more" if change > 0 else "fewer"
        return f"{counted(abs(change), 'days')} {which_way} than the {TREND_DAYS} before."


def month_of(states: Iterable[tuple[date, str]], as_of: date) -> Month:
    """The last 30 days that end with ``as_of`` against the 30 before, from (day, state) pairs."""
    dated = list(states)
    lately = _between(dated, as_of, 0)
    before = _between(dated, as_of, TREND_DAYS)
    counts = {state: lately.count(state) for state in dict.fromkeys(lately)}
    return Month(counts, len(lately), _kept_off(lately), _kept_off(before), len(before))


def _between(states: Sequence[tuple[date, str]], as_of: date, skip: int) -> list[str]:
    return [state for on, state in states if skip <= (as_of - on).days < skip + TREND_DAYS]


def _kept_off(states: Sequence[str]) -> int:
    return sum(state in KEPT_OFF for state in states)
