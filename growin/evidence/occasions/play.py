"""A green in play that falls back: a bar of its surface no longer met, or a sign of its stop rule."""

from greens.actions.notice import Telling
from greens.choices import NoticeKind
from greens.models import Establishment
from growin.agronomy.in_play import STOP_MEASURE, is_at_stop_rule, is_sign_in_play
from growin.agronomy.rules import NOT_MET
from growin.evidence.occasions.criterion import why
from growin.evidence.occasions.look import Found, Look
from growin.evidence.occasions.words import digest_of, lines, listed
from growin.evidence.readiness import named
from growin.queries import decision as decisions

STOPS = "stop rule"
SAFETY = "The head greenkeeper may close it at once; a closure for safety needs nobody's leave."


def found(look: Look, rebuild: Establishment, before: list | None) -> Found:
    """Told when a reading shows another bar not met; height and growth, which winter changes, are no sign.

    What was not met when the committee opened it all the same is no news.
    """
    if not look.is_open(rebuild):
        return Found()
    bars = look.judged[rebuild.pk].verdict.bars
    fallen = [one for one in bars if one.state == NOT_MET and is_sign_in_play(one.criterion)]
    thin = thinnest(look, rebuild)
    after = [one.criterion for one in fallen] + ([STOPS] if thin else [])
    known = unmet_when_opened(look, rebuild) if before is None else set(before)
    if set(after) <= known:
        return Found(holds=bool(after), after=after)
    rule = look.plays[rebuild.pk].decision.stop_rule
    said = [f"{named([one.words for one in fallen])} not met"] if fallen else []
    telling = Telling(
        kind=NoticeKind.PLAY,
        key=f"play {rebuild.pk} {look.on} {digest_of(dict.fromkeys(after, NOT_MET))}",
        subject=f"{rebuild.green} in play: {', '.join([*said, *(['at its stop rule'] if thin else [])])}",
        text=lines(thin, listed(map(why, fallen)), f"Its stop rule: {rule}" if rule else "", SAFETY),
        place=look.page("readiness", rebuild.green),
        green=rebuild.green,
        presses=bool(thin),
    )
    return Found(telling, holds=True, after=after)


def thinnest(look: Look, rebuild: Establishment) -> str:
    """A sentence where the newest walk in play found more than the stop rule allows; else empty."""
    since = look.plays[rebuild.pk].since
    read = look.judged[rebuild.pk].evidence.readings
    walks = [one for one in read if one.measure == STOP_MEASURE and one.on >= since]
    newest = sorted(walks, key=lambda one: one.on)[-1:]
    if not newest or not is_at_stop_rule(newest[0].values):
        return ""
    return f"Footprinting, thin or wilting on {max(newest[0].values):g} % of it; the stop rule allows 5 %."


def unmet_when_opened(look: Look, rebuild: Establishment) -> set[str]:
    """The bars that were not met in the evidence of the decision that holds it open; one query."""
    evidence = decisions.evidence_of(look.plays[rebuild.pk].decision)
    return {one["criterion"] for one in evidence.get("findings", ()) if one["state"] == NOT_MET}
