"""The week in plain words, for those who read rather than log."""

from datetime import date

from greens.actions.notice import Telling
from greens.choices import NoticeKind
from greens.models import Establishment
from growin.agronomy.plain_words import day
from growin.evidence.occasions.look import Found, Look
from growin.evidence.week import told


def found(look: Look, rebuild: Establishment, before: str | None) -> Found:
    """Told once a week, from its Monday on, of the week that ended on Sunday."""
    first, last = look.last_week
    if before == last.isoformat() or rebuild.works_started_on > last:
        return Found(after=before)
    telling = Telling(
        kind=NoticeKind.NOTE,
        key=f"note {rebuild.pk} {first}",
        subject=f"{rebuild.green}: {in_short(first, last)}",
        text=told(look, rebuild),
        place=look.page("green", rebuild.green),
        green=rebuild.green,
    )
    return Found(telling, holds=True, after=last.isoformat())


def in_short(first: date, last: date) -> str:
    return f"the week of {day(first)} to {day(last)}"
