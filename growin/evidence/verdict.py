"""The verdict of one green, or of all greens of a club, as of a day."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from greens.models import Club, Establishment
from greens.queries import greens
from growin.agronomy.criteria import BAR
from growin.agronomy.facts import Evidence
from growin.agronomy.rules import NOT_MET
from growin.agronomy.verdict import GATE, NOT_READY, Finding, Verdict, judge_all
from growin.evidence.gathered import Gathered, gather
from growin.queries.remembered import kept_while_unchanged

NOT_LAID_WORDS = ("Not laid or sown yet.",)
NOT_LAID = Finding(GATE, "Time since laying or sowing", BAR, NOT_MET, NOT_LAID_WORDS, because=NOT_LAID_WORDS)
#: No rule looks further back, and no word of a verdict tells more than a year.
JUDGED_BACK = timedelta(days=400)
Settings = Mapping[str, float]


@dataclass(frozen=True)
class Judged:
    """A verdict with the evidence and the settings it was judged on."""

    establishment: Establishment
    as_of: date
    verdict: Verdict
    evidence: Evidence
    settings: Settings


@kept_while_unchanged
def verdict_of(establishment: Establishment, as_of: date, settings: Settings | None = None) -> Verdict:
    """The verdict on one establishment as it was known on a day."""
    return judged(establishment, as_of, settings).verdict


def judged(establishment: Establishment, as_of: date, settings: Settings | None = None) -> Judged:
    """The verdict on one establishment with all that it stands on."""
    return judged_all(establishment.green.club, [establishment], as_of, settings)[0]


def judged_all(
    club: Club,
    establishments: Sequence[Establishment],
    as_of: date,
    settings: Settings | None = None,
    instead: Settings | None = None,
) -> list[Judged]:
    """Verdicts on several establishments of a club, in the number of queries that one takes.

    ``settings`` replaces all constants in force, ``instead`` some of them.
    """
    gathered = gather(club, establishments, as_of, settings, instead, as_of - JUDGED_BACK)
    return [_judged(one, as_of, gathered[one.pk]) for one in establishments]


def verdicts(club: Club, as_of: date) -> dict[int, Verdict]:
    """The verdict on every green that has been rebuilt, by the green's id."""
    rebuilt = list(greens.current_establishments(club).values())
    return {one.establishment.green_id: one.verdict for one in judged_all(club, rebuilt, as_of)}


def _judged(establishment: Establishment, as_of: date, known: Gathered) -> Judged:
    verdict = judge_all(known.evidence, as_of, known.settings)
    if known.evidence.gate_on is None:
        verdict = _not_laid(verdict)
    return Judged(establishment, as_of, verdict, known.evidence, known.settings)


def _not_laid(verdict: Verdict) -> Verdict:
    findings = (NOT_LAID, *verdict.findings)
    return replace(verdict, state=NOT_READY, findings=findings, unmet=(NOT_LAID, *verdict.unmet)[:3])
