"""Looking again at a green in play: days 7, 14 and 28."""

from greens.actions.notice import Telling
from greens.choices import NoticeKind
from greens.models import Establishment
from growin.agronomy.in_play import OVERDUE
from growin.agronomy.plain_words import day
from growin.evidence.occasions.look import Found, Look

SIGNS = (
    "Take a whole set of readings. Footprinting, torn joints, more than 5 % thin or wilting: close it, "
    "play it on alternate days, or move the hole."
)


def found(look: Look, rebuild: Establishment, before: str | None) -> Found:
    """Told when a look is due, and once more when it is overdue."""
    again = look.rechecks.get(rebuild.pk)
    if again is None or not again.is_asked:
        return Found()
    state = f"{again.day} {again.state}"
    if state == before:
        return Found(holds=True, after=state)
    telling = Telling(
        kind=NoticeKind.RECHECK,
        key=f"look again {rebuild.pk} {again.on} {again.state}",
        subject=f"{rebuild.green}: look again, day {again.day} in play, {again.state}",
        text=f"{day(again.on)}. {SIGNS}",
        place=look.page("choose_measure", rebuild.green),
        green=rebuild.green,
        presses=again.state == OVERDUE,
    )
    return Found(telling, holds=True, after=state)
