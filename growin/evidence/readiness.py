"""May it open? Everything the readiness page says, gathered once."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from greens.models import Advice, Club, Establishment, Green
from greens.queries import day_state, greens, record
from growin.agronomy.criteria import BAR, CRITERIA
from growin.agronomy.in_play import Month
from growin.agronomy.plain_words import counted, day
from growin.agronomy.rules import MET, NOT_KNOWN, NOT_MET
from growin.agronomy.verdict import NOT_READY, READY, Finding, Verdict
from growin.evidence.verdict import judged
from growin.evidence.warned import Warned, warned
from growin.models import Decision, Proposal
from growin.queries import decision as decisions
from growin.queries import proposal as proposals
from growin.queries import threshold
from growin.queries.decision import PlayState, stands
from growin.queries.remembered import kept_while_unchanged
from growin.queries.threshold import Change

LATEST_DECISIONS = 12
LATEST_ADVICE = 3


@dataclass(frozen=True)
class Readiness:
    """The verdict on one rebuild as of a day, with what stands beside and beneath it."""

    establishment: Establishment
    as_of: date
    verdict: Verdict
    play: PlayState
    month: Month | None
    advice: Sequence[Advice]
    changes: Sequence[Change]
    decisions: Sequence[Decision]
    proposal: Proposal | None = None
    warned: Sequence[Warned] = ()

    @property
    def is_laid(self) -> bool:
        """Whether it was laid or sown by that day."""
        laid = self.establishment.established_on
        return laid is not None and laid <= self.as_of

    @property
    def sentence(self) -> str:
        return sentence(self.verdict)

    @property
    def bars(self) -> list[tuple[Finding, str]]:
        """Each bar with why it is asked."""
        return [(one, why(one)) for one in self.verdict.bars]

    @property
    def watches(self) -> list[tuple[Finding, str]]:
        return [(one, why(one)) for one in self.verdict.findings if one.kind != BAR]

    @property
    def next_inspection(self) -> str:
        """The day of the next set of readings, as people say it."""
        on = self.verdict.next_inspection
        return "today" if on == self.as_of else day(on)


def why(finding: Finding) -> str:
    """Why a criterion is asked; nothing is said of the gate."""
    return CRITERIA[finding.criterion].why if finding.criterion in CRITERIA else ""


def sentence(verdict: Verdict) -> str:
    """The verdict in one sentence that a committee member takes in at a glance."""
    if verdict.state == READY:
        return f"All {counted(len(verdict.bars), 'bars')} are met."
    met = sum(one.state == MET for one in verdict.bars)
    deciding = NOT_MET if verdict.state == NOT_READY else NOT_KNOWN
    holding = [one.words for one in verdict.bars if one.state == deciding]
    short = f"not met{unknown(verdict)}" if deciding == NOT_MET else "waiting for readings"
    return f"{met} of {counted(len(verdict.bars), 'bars')} met; {named(holding)} {short}."


def unknown(verdict: Verdict) -> str:
    """ ", 6 not known": bars beside those not met that nobody can tell yet."""
    count = sum(one.state == NOT_KNOWN for one in verdict.bars)
    return f", {count} not known" if count else ""


def named(words: Sequence[str], most: int = 3) -> str:
    """ "rooting, joints and levels", the rest counted."""
    shown = [one[:1].lower() + one[1:] for one in words[:most]]
    more = len(words) - len(shown)
    if more:
        return f"{', '.join(shown)} and {more} more"
    return " and ".join(filter(None, [", ".join(shown[:-1]), shown[-1]])) if shown else ""


@kept_while_unchanged
def readiness_of(club: Club, green: Green, as_of: date) -> Readiness | None:
    """Readiness of the rebuild that was under way on a day; none where none was."""
    establishment = greens.establishment_on(green, as_of)
    if establishment is None:
        return None
    establishment.green = green
    made = [one for one in decisions.of(establishment) if one.made_on <= as_of]
    play = stands(made, day_state.of_green_on(green, as_of), as_of)
    known = judged(establishment, as_of)
    return Readiness(
        establishment=establishment,
        as_of=as_of,
        verdict=known.verdict,
        play=play,
        month=day_state.months(club, as_of).get(green.pk) if play.is_open else None,
        advice=record.advice_on(green).filter(on__lte=as_of)[:LATEST_ADVICE],
        changes=threshold.since(club, green, establishment.works_started_on, as_of),
        decisions=made[:LATEST_DECISIONS],
        proposal=proposals.open_of(establishment, as_of) if known.evidence.proposed_on else None,
        warned=warned(establishment, as_of),
    )
