"""Opening and closing a green: decided by people, kept with the evidence as it stood."""

from datetime import date, timedelta

from django.db import transaction
from django.urls import reverse

from greens.actions import trail
from greens.actions.notice import Telling, supersede, tell
from greens.choices import NoticeKind
from greens.models import Establishment, Membership
from greens.queries import wish as wishes
from growin.actions.forecast import refreshed
from growin.actions.proposal import settle
from growin.agronomy.fields import DetailError
from growin.agronomy.opening_early import consequences
from growin.agronomy.plain_words import dated, day
from growin.agronomy.verdict import READY
from growin.evidence import Judged, judged
from growin.evidence.readiness import named
from growin.evidence.sealed import seal
from growin.models import Decision, Pattern
from growin.queries import decision as decisions
from growin.queries import forecast as forecasts

LATEST = timedelta(days=366)
LONGEST = {"stop_rule": 500, "present": 400, "reason": 1000}


@transaction.atomic
def decide(
    *,
    establishment: Establishment,
    by: Membership,
    from_day: date,
    pattern: str,
    meeting_on: date,
    present: str,
    stop_rule: str = "",
    reason: str = "",
) -> Decision:
    """What the committee decided, with verdict, values, rules, settings and their digest of today.

    Against the verdict it wants a reason and is marked as such for ever. It settles the proposal of
    a day that stood open.

    Raises
    ------
    DetailError
        With one sentence for everything that is missing or cannot be.
    """
    today = establishment.green.club.local_today()
    known = judged(establishment, today)
    against = pattern != Pattern.CLOSED and known.verdict.state != READY
    said = {"stop_rule": stop_rule.strip(), "present": present.strip(), "reason": reason.strip()}
    errors = {
        **_wrong_days(establishment, today, from_day, meeting_on),
        **_missing(pattern, said, against, known.verdict.state),
    }
    if errors:
        raise DetailError(errors)
    refreshed(establishment, today)
    row = _keep(
        known, by, pattern, from_day=from_day, meeting_on=meeting_on, is_against_verdict=against, **said
    )
    settle(establishment, by, row)
    if against:
        tell_everybody(row, known)
    return row


def about(establishment: Establishment) -> str:
    """What the keys of notices about decisions on one rebuild begin with."""
    return f"against the verdict {establishment.pk} "


def tell_everybody(decision: Decision, known: Judged) -> None:
    """Everybody of the club hears that a green was opened against the verdict, and why."""
    green, told = known.establishment.green, decision.evidence["forecast"]
    said = [
        f"{decision.by.name} entered on {day(decision.made_on)}: {decision.get_pattern_display().lower()} "
        f"from {day(decision.from_day)}, although the verdict is “{decision.verdict}”.",
        f"Unmet: {named([one.words for one in known.verdict.unmet])}.",
        f"Reason given: {decision.reason}",
        f"Chance to be ready by that day: {told['chance_words']}." if told else "",
        *(one.words for one in consequences(known.establishment.species, known.establishment.is_turf)),
        f"Stop rule: {decision.stop_rule}",
    ]
    telling = Telling(
        kind=NoticeKind.AGAINST,
        key=f"{about(known.establishment)}{decision.pk}",
        subject=f"{green.name}: opening decided against the verdict",
        text="\n\n".join(filter(None, said)),
        place=reverse("decision", args=[green.club.slug, decision.pk]),
        green=green,
    )
    tell(club=green.club, to=wishes.able(green.club), telling=telling)


@transaction.atomic
def close_now(*, establishment: Establishment, by: Membership, reason: str) -> Decision:
    """Closed from today on, by the head greenkeeper or the committee, with a reason.

    Raises
    ------
    DetailError
        When no reason is given, or the green is closed already.
    """
    today = establishment.green.club.local_today()
    play = decisions.play_state(establishment, today)
    errors = _too_long({"reason": reason})
    if not reason.strip():
        errors["reason"] = "Say why it is closed; those who play it will ask."
    elif not play.is_open and play.coming is None:
        errors[""] = "It is not open, and no opening has been decided: there is nothing to close."
    if errors:
        raise DetailError(errors)
    return _keep(judged(establishment, today), by, Pattern.CLOSED, from_day=today, reason=reason.strip())


def _wrong_days(establishment: Establishment, today: date, from_day: date, meeting_on: date) -> dict:
    wrong = {}
    if meeting_on > today:
        wrong["meeting_on"] = f"{day(meeting_on)} lies in the future; enter the decision after the meeting."
    elif meeting_on < establishment.works_started_on:
        began = dated(establishment.works_started_on)
        wrong["meeting_on"] = f"The works began on {began}; no meeting decided on this rebuild before."
    if from_day < meeting_on:
        wrong["from_day"] = (
            f"{day(from_day)} lies before the meeting of {day(meeting_on)}; choose a later one."
        )
    elif from_day > today + LATEST:
        wrong["from_day"] = f"{day(from_day)} {from_day.year} is more than a year away; decide nearer to it."
    laid = establishment.established_on
    if laid is None:
        wrong["from_day"] = "The green must be laid or sown before it can be opened."
    elif from_day < laid:
        wrong["from_day"] = f"{dated(from_day)} lies before {dated(laid)}, when it was laid or sown."
    return wrong


def _missing(pattern: str, said: dict, against: bool, verdict: str) -> dict:
    wrong = _too_long(said)
    if pattern not in Pattern.values:
        wrong["pattern"] = f"“{pattern[:40]}” is no pattern of play; choose one of those listed."
    if not said["present"]:
        wrong["present"] = "Name those who were present."
    if pattern != Pattern.CLOSED and not said["stop_rule"]:
        wrong["stop_rule"] = "Say what would close the green again."
    if against and not said["reason"]:
        wrong["reason"] = f"The verdict today is “{verdict}”: opening against it needs a reason."
    return wrong


def _too_long(said: dict) -> dict:
    over = {name: len(words) for name, words in said.items() if len(words) > LONGEST[name]}
    return {name: f"This has {count} letters; at most {LONGEST[name]} fit." for name, count in over.items()}


def _keep(known: Judged, by: Membership, pattern: str, from_day: date, **values) -> Decision:
    evidence, digest = seal(known, forecasts.newest(known.establishment), from_day)
    row = Decision.objects.create(
        establishment=known.establishment,
        by=by,
        made_on=known.as_of,
        pattern=pattern,
        from_day=from_day,
        verdict=known.verdict.state,
        evidence=evidence,
        digest=digest,
        **values,
    )
    green = known.establishment.green
    against = ", against the verdict" if row.is_against_verdict else ""
    changes = {"play": [None, str(row)], "verdict": [None, row.verdict], "digest": [None, digest]}
    deed = f"Decided: {row}{against}"
    trail.write(club=green.club, by=by, deed=deed, row=row, green=green, changes=changes)
    supersede(club=green.club, keys=about(known.establishment))
    return row
