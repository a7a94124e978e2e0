"""What a proposed day would mean: its chance, what would be unmet, what early costs, what waiting costs."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy.opening_early import Consequence, consequences
from growin.agronomy.plain_words import counted, day
from growin.agronomy.programme import OPENING_KEY
from growin.agronomy.rules import MET, NOT_KNOWN, NOT_MET
from growin.agronomy.verdict import GATE, Finding, judge_gate
from growin.evidence.chance import Chance, chance_from
from growin.evidence.expected import Expected, expected
from growin.evidence.verdict import Judged, judged
from growin.evidence.warned import Warned, warned
from growin.models import Proposal
from growin.queries import programme, threshold
from growin.queries.threshold import Change

TO_READ_AGAIN = "to be read again"
WORST_FIRST = (NOT_MET, NOT_KNOWN, TO_READ_AGAIN)


@dataclass(frozen=True)
class Unmet:
    """A bar that would not be met on the proposed day, as far as it is known, and why."""

    words: str
    state: str
    sentence: str


@dataclass(frozen=True)
class Waiting:
    """What waiting costs: ``days`` more on the temporary green, until ``ready_on``; the year is said
    where it is not that of the proposed day ``beside``.

    The day is that of the forecast, or of the programme while there is none; None where neither is.
    """

    ready_on: date | None
    days: int | None
    is_forecast: bool
    beside: date

    @property
    def words(self) -> str:
        """One sentence for a committee."""
        if self.ready_on is None:
            return "Neither a forecast nor a programme says yet how long that would be."
        on = day(self.ready_on, self.beside)
        said = f"as likely as not by {on}" if self.is_forecast else on
        by = "The forecast has it ready" if self.is_forecast else "The programme plans the opening for"
        if not self.days:
            return f"No day more: {by[:1].lower()}{by[1:]} {said}, no later than the proposed day."
        return f"{counted(self.days, 'days')} more on the temporary green. {by} {said}."


@dataclass(frozen=True)
class Outlook:
    """Everything the page of a proposal says, as of a day."""

    proposal: Proposal
    as_of: date
    known: Judged
    chance: Chance
    expected: Expected | None
    unmet: Sequence[Unmet]
    waiting: Waiting
    uncounted: Sequence[Change]
    warned: Sequence[Warned] = ()

    @property
    def is_open(self) -> bool:
        return self.proposal.is_open(self.as_of)

    @property
    def consequences(self) -> tuple[Consequence, ...]:
        rebuilt = self.proposal.establishment
        return consequences(rebuilt.species, rebuilt.is_turf)

    @property
    def next_inspection(self) -> date:
        """When readings are to be taken next."""
        return self.known.verdict.next_inspection

    @property
    def last_set_from(self) -> date:
        """Readings of this day or later still count on the proposed day."""
        return self.proposal.opening_on - _fresh(self.known)


def outlook(proposal: Proposal, as_of: date) -> Outlook:
    """The outlook on a proposed day."""
    establishment = proposal.establishment
    known, club = judged(establishment, as_of), establishment.green.club
    foreseen = expected(known.verdict, establishment)
    chance = chance_from(foreseen and foreseen.told, proposal.opening_on)
    changes = threshold.since(club, establishment.green, proposal.made_on, as_of)
    return Outlook(
        proposal=proposal,
        as_of=as_of,
        known=known,
        chance=chance,
        expected=foreseen,
        unmet=sorted(unmet_on(known, proposal.opening_on), key=lambda one: WORST_FIRST.index(one.state)),
        waiting=waiting(proposal, chance),
        uncounted=[one for one in changes if one.row.made_at > proposal.made_at],
        warned=[one for one in warned(establishment, as_of) if one.warning.planned_on == proposal.opening_on],
    )


def unmet_on(known: Judged, on: date):
    """Bars that would be unmet on a day by what is known now; a reading too old by then is asked anew."""
    gate = judge_gate(known.evidence, on)
    for one in known.verdict.bars:
        finding = gate if one.criterion == GATE and gate else one
        if finding.state != MET:
            said = (*finding.because, *finding.settles[:1])
            yield Unmet(finding.words, finding.state, " ".join(said))
        elif _too_old(finding, known, on):
            yield Unmet(finding.words, TO_READ_AGAIN, f"Met now; its oldest reading is of {day(finding.on)}.")


def _too_old(finding: Finding, known: Judged, on: date) -> bool:
    return finding.on is not None and on - finding.on > _fresh(known)


def _fresh(known: Judged) -> timedelta:
    """How long a reading counts in the fortnight before a proposed day."""
    return timedelta(days=int(known.settings["criterion.fresh_days_near_opening"]))


def waiting(proposal: Proposal, chance: Chance) -> Waiting:
    """Days from the proposed one to that on which it is as likely ready as not."""
    ready_on = chance.likely_on or _planned(proposal)
    days = None if ready_on is None else max((ready_on - proposal.opening_on).days, 0)
    return Waiting(ready_on, days, chance.likely_on is not None, proposal.opening_on)


def _planned(proposal: Proposal) -> date | None:
    steps = programme.steps_in_force([proposal.establishment]).filter(key=OPENING_KEY, is_dropped=False)
    return steps.values_list("likely", flat=True).first()
