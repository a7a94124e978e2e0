"""Bars newly met, or lost, on the way to opening."""

from greens.actions.notice import Telling
from greens.choices import NoticeKind
from greens.models import Establishment
from growin.agronomy.rules import MET, NOT_MET
from growin.agronomy.verdict import READY, Finding
from growin.evidence.occasions.look import Found, Look
from growin.evidence.occasions.words import digest_of, lines, listed
from growin.evidence.readiness import named, sentence


def found(look: Look, rebuild: Establishment, before: dict | None) -> Found:
    """Against the last look: the first look tells nothing, and nothing is told once the green is open."""
    if not look.is_laid(rebuild) or look.is_open(rebuild):
        return Found()
    verdict = look.judged[rebuild.pk].verdict
    states = {one.criterion: one.state for one in verdict.bars}
    met = [one for one in verdict.bars if one.state == MET and was(before, one) not in (MET, None)]
    lost = [one for one in verdict.bars if one.state == NOT_MET and was(before, one) == MET]
    if not met and not lost:
        return Found(holds=True, after=_kept(states, before))
    telling = Telling(
        kind=NoticeKind.CRITERION,
        key=f"bars {rebuild.pk} {look.on} {digest_of(states)}",
        subject=f"{rebuild.green}: {in_short(met, lost, verdict.state == READY)}",
        text=lines(listed(map(why, lost)), listed(map(why, met)), sentence(verdict)),
        place=look.page("readiness", rebuild.green),
        green=rebuild.green,
        presses=bool(lost),
    )
    return Found(telling, holds=True, after=_kept(states, before))


def was(before: dict | None, one: Finding) -> str | None:
    return (before or {}).get(one.criterion)


def _kept(states: dict, before: dict | None) -> dict:
    """What is not known now keeps the state it had, so that a reading that grew old and is taken again
    with the same result is no news."""
    old = before or {}
    return {key: state if state in (MET, NOT_MET) else old.get(key, state) for key, state in states.items()}


def in_short(met: list[Finding], lost: list[Finding], is_ready: bool) -> str:
    said = [f"{named([one.words for one in lost])} no longer met"] if lost else []
    said += [f"{named([one.words for one in met])} newly met"] if met else []
    return ", ".join([*said, *(["all bars are met"] if is_ready else [])])


def why(one: Finding) -> str:
    return f"{one.state.capitalize()}: {' '.join(one.because)}"
