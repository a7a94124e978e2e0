"""Readings that the programme asks for, and bars whose readings have grown too old to count."""

from greens.choices import NoticeKind
from greens.models import Establishment
from growin.agronomy.plain_words import day
from growin.agronomy.programme import READING
from growin.agronomy.rules import NOT_KNOWN
from growin.agronomy.verdict import Finding
from growin.evidence.occasions.look import Found, Look, as_they_stand
from growin.evidence.occasions.steps import line
from growin.evidence.occasions.words import lines, listed
from growin.evidence.readiness import named

STALE = "too old"


def found(look: Look, rebuild: Establishment, before: dict | None) -> Found:
    """Told once when a reading becomes due or overdue, and once when the last one stops counting."""
    due = [one for one in look.asked[rebuild.pk] if one.step.kind == READING]
    stale = too_old(look, rebuild)
    states = {one.step.key: one.state for one in due} | {one.criterion: STALE for one in stale}
    return as_they_stand(
        look, rebuild, NoticeKind.READINGS, states, before,
        subject=in_short(due, stale),
        text=lines(listed(map(line, due)), listed(map(last_read, stale))),
        place=look.page("choose_measure", rebuild.green),
        presses=any(one.is_late for one in due),
    )  # fmt: skip


def too_old(look: Look, rebuild: Establishment) -> list[Finding]:
    """Bars that nobody can tell any more because they were read too long ago; once in play none counts."""
    if look.is_open(rebuild) or not look.is_laid(rebuild):
        return []
    bars = look.judged[rebuild.pk].verdict.bars
    return [one for one in bars if one.state == NOT_KNOWN and one.stale and one.on]


def in_short(due: list, stale: list[Finding]) -> str:
    said = f"{len(due)} {'reading' if len(due) == 1 else 'readings'} due" if due else ""
    old = f"{named([one.words for one in stale])} to be read again" if stale else ""
    return ", ".join(filter(None, [said, old]))


def last_read(one: Finding) -> str:
    return f"{one.words}: last read {day(one.on)}, too old to count."
