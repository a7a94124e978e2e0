"""A green in play that falls back: a bar of its surface no longer met, or a sign of its stop rule."""

from greens.actions.notice import Telling
from greens.choices import NoticeKind
from greens.models import Establishment
from growin.agronomy.in_play import is_sign_in_play, is_stop_sign
from growin.agronomy.rules import NOT_MET
from growin.evidence.occasions.criterion import why
from growin.evidence.occasions.look import Found, Look
from growin.evidence.occasions.words import digest_of, lines, listed
from growin.evidence.readiness import named


def found(look: Look, rebuild: Establishment, before: list | None) -> Found:
    """Told when a reading shows another bar not met; height and growth, which winter changes, are no sign."""
    if not look.is_open(rebuild):
        return Found(after=[])
    bars = look.judged[rebuild.pk].verdict.bars
    fallen = [one for one in bars if one.state == NOT_MET and is_sign_in_play(one.criterion)]
    after = [one.criterion for one in fallen]
    if set(after) <= set(before or ()):
        return Found(holds=bool(fallen), after=after)
    stops = any(is_stop_sign(one.criterion) for one in fallen)
    rule = look.plays[rebuild.pk].decision.stop_rule
    telling = Telling(
        kind=NoticeKind.PLAY,
        key=f"play {rebuild.pk} {look.on} {digest_of(dict.fromkeys(after, NOT_MET))}",
        subject=f"{rebuild.green} in play: {named([one.words for one in fallen])} not met"
        + (", at its stop rule" if stops else ""),
        text=lines(listed(map(why, fallen)), f"Its stop rule: {rule}" if rule else "", SAFETY),
        place=look.page("readiness", rebuild.green),
        green=rebuild.green,
        presses=stops,
    )
    return Found(telling, holds=True, after=after)


SAFETY = "The head greenkeeper may close it at once; a closure for safety needs nobody's leave."
