"""What the contractor has to put right, when its day is near or has passed."""

from datetime import timedelta

from greens.choices import NoticeKind
from greens.models import Defect, Establishment
from growin.agronomy.plain_words import counted, dated
from growin.evidence.occasions.look import Found, Look, as_they_stand
from growin.evidence.occasions.words import lines, listed

#: A contractor wants so much notice (our judgement).
NEAR = timedelta(days=7)
DUE, LATE = "due", "overdue"


def found(look: Look, rebuild: Establishment, before: dict | None) -> Found:
    """Told a week before the agreed day, and once more when it has passed; so with the maintenance period."""
    rows = {str(one.pk): one for one in look.defects[rebuild.pk] if state(one, look.on)}
    states = {pk: state(one, look.on) for pk, one in rows.items()}
    period = ends_soon(look, rebuild)
    states |= {"maintenance": DUE} if period else {}
    late = [one for one in states.values() if one == LATE]
    return as_they_stand(
        look, rebuild, NoticeKind.DEFECT, states, before,
        subject=in_short(len(rows), len(late), period),
        text=lines(listed(line(one, states[pk]) for pk, one in rows.items()), period),
        place=look.page("record", rebuild.green),
        presses=bool(late),
    )  # fmt: skip


def state(one: Defect, on) -> str:
    if one.due_on is None or on < one.due_on - NEAR:
        return ""
    return LATE if on > one.due_on else DUE


def ends_soon(look: Look, rebuild: Establishment) -> str:
    """The contractor's maintenance period, in the week before its end while a defect is open."""
    ends = rebuild.maintenance_ends_on
    if ends is None or not look.defects[rebuild.pk] or not ends - NEAR <= look.on <= ends:
        return ""
    return (
        f"The maintenance period ends on {dated(ends)}; have put right what is the contractor's before then."
    )


def in_short(count: int, late: int, period: str) -> str:
    said = f"{counted(count, 'defects')} for the contractor" if count else ""
    said += f", {late} overdue" if late else ""
    return said or "the maintenance period ends"


def line(one: Defect, state: str) -> str:
    place = f" ({one.place})" if one.place else ""
    return f"{state.capitalize()} {dated(one.due_on)}: {one.what}{place}."
