"""Work of the programme that is due, or overdue."""

from collections.abc import Iterable

from greens.choices import NoticeKind
from greens.models import Establishment
from growin.agronomy.plain_words import counted, day
from growin.agronomy.programme import OPENING_KEY, READING
from growin.evidence.occasions.look import Found, Look, as_they_stand
from growin.evidence.occasions.words import listed
from growin.queries.standing import Standing
from growin.queries.today import RECHECK


def found(look: Look, rebuild: Establishment, before: dict | None) -> Found:
    """Told once when a step becomes due, and once more when it is overdue; with it all that is open."""
    standing = [one for one in look.asked[rebuild.pk] if is_work(one)]
    states = {one.step.key: one.state for one in standing}
    return as_they_stand(
        look, rebuild, NoticeKind.STEPS, states, before,
        subject=in_short(standing),
        text=listed(map(line, standing)),
        place=look.page("today"),
        presses=any(one.is_late for one in standing),
    )  # fmt: skip


def is_work(one: Standing) -> bool:
    """Neither a reading nor the committee's day nor a look after opening: those are told by themselves."""
    step = one.step
    return step.kind != READING and step.key != OPENING_KEY and not step.key.startswith(RECHECK)


def in_short(standing: Iterable[Standing]) -> str:
    """ "2 steps overdue, 1 due"."""
    rows = list(standing)
    late = sum(one.is_late for one in rows)
    if not late:
        return f"{counted(len(rows), 'steps')} due"
    more = f", {len(rows) - late} due" if len(rows) > late else ""
    return f"{counted(late, 'steps')} overdue{more}"


def line(one: Standing) -> str:
    """A step as it stands: "Overdue: First feed, 6 kg N/ha, likely Thu 2 April"."""
    amount = f", {one.step.planned}" if one.step.planned else ""
    gate = f"; once {one.step.gate}" if one.step.gate else ""
    return f"{one.state.capitalize()}: {one.step.what}{amount}, likely {day(one.step.likely)}{gate}."
