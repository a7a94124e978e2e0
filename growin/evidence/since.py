"""What has changed on a green since the last meeting: verdict, readings, thresholds, advice, decisions."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Q

from greens.models import Advice, Establishment, ReadingSet
from greens.queries import readings, record
from growin.agronomy.verdict import Verdict
from growin.evidence.verdict import judged
from growin.models import Decision
from growin.queries import decision as decisions
from growin.queries import threshold
from growin.queries.threshold import Change

DAY = timedelta(days=1)


@dataclass(frozen=True)
class Turned:
    """One criterion that stands otherwise than it did; ``before`` is empty where it was not asked then."""

    words: str
    before: str
    after: str
    sentence: str


@dataclass(frozen=True)
class Since:
    """Everything since the decision of the last meeting, which kept the verdict of its day."""

    meeting: Decision
    verdict: Verdict
    turned: Sequence[Turned]
    same: int
    readings: Sequence[ReadingSet]
    changes: Sequence[Change]
    advice: Sequence[Advice]
    decisions: Sequence[Decision]


def since_meeting(establishment: Establishment, as_of: date) -> Since | None:
    """What changed since the last meeting that decided on a rebuild; None before any; ten queries at most."""
    made = list(decisions.of(establishment))
    last = next((one for one in made if one.meeting_on), None)
    if last is None:
        return None
    verdict, green = judged(establishment, as_of).verdict, establishment.green
    read = readings.of_establishment(establishment).filter(on__lte=as_of)
    advice = record.advice_on(green).filter(on__lte=as_of)
    turned = list(turned_since(last.evidence.get("findings", ()), verdict))
    return Since(
        meeting=last,
        verdict=verdict,
        turned=turned,
        same=len(verdict.findings) - sum(bool(one.after) for one in turned),
        readings=list(read.filter(Q(on__gt=last.made_on) | Q(logged_at__gt=last.made_at))),
        changes=threshold.since(green.club, green, last.made_on + DAY, as_of),
        advice=list(advice.filter(Q(on__gt=last.made_on) | Q(made_at__gt=last.made_at))),
        decisions=[one for one in made if one.pk > last.pk],
    )


def turned_since(before: Iterable[dict], verdict: Verdict) -> Iterable[Turned]:
    """Criteria whose state differs from the one that was signed."""
    held = {one["criterion"]: one["state"] for one in before}
    for one in verdict.findings:
        if held.get(one.criterion) != one.state:
            said = " ".join(one.because or one.sentences)
            yield Turned(one.words, held.get(one.criterion, ""), one.state, said)
