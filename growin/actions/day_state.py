"""The state of the day, which cannot say that a green is open whose opening nobody decided."""

from datetime import date

from greens.actions.day_state import record_state
from greens.choices import DayStateKind
from greens.models import DayState, Green, Membership
from greens.queries import greens
from growin.agronomy.fields import DetailError
from growin.queries.decision import play_state


def state_of_the_day(*, green: Green, by: Membership, on: date, state: str) -> DayState:
    """One tap.

    Raises
    ------
    DetailError
        For an unknown state, a day still to come, or a green called open that is not in play.
    """
    rebuilt = greens.current_establishment(green)
    if state == DayStateKind.OPEN and not (rebuilt and play_state(rebuilt, on).is_open):
        raise DetailError({"state": f"{green.name} is not in play: nobody has decided to open it."})
    return record_state(green=green, by=by, on=on, state=state)
