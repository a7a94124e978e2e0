"""What a change of a threshold would do to the verdicts, told before it is kept."""

from dataclasses import dataclass
from datetime import date

from greens.models import Club, Establishment, Green
from greens.queries import greens, settings
from growin.agronomy.verdict import Verdict
from growin.evidence.verdict import judged_all
from growin.queries import proposal as proposals


@dataclass(frozen=True)
class Effect:
    """One green's verdict today with the value that holds, and with the one proposed."""

    establishment: Establishment
    before: Verdict
    after: Verdict

    @property
    def turned(self) -> list[tuple[str, str, str]]:
        """Criteria whose state would change: words, from, to."""
        pairs = zip(self.before.findings, self.after.findings, strict=True)
        return [(one.words, one.state, other.state) for one, other in pairs if one.state != other.state]


def effects(club: Club, key: str, value: float, as_of: date, green: Green | None = None) -> list[Effect]:
    """The greens whose findings would change, judged on the evidence of a day.

    A green with a value of its own is not touched by the club's; one for which a day is proposed is
    judged by its frozen criteria.
    """
    frozen = proposals.open_in(club, as_of)
    rebuilt = [one for one in _touched(club, key, as_of, green) if one.pk not in frozen]
    before = judged_all(club, rebuilt, as_of)
    after = judged_all(club, rebuilt, as_of, instead={key: value})
    pairs = zip(before, after, strict=True)
    found = [Effect(one.establishment, one.verdict, other.verdict) for one, other in pairs]
    return [one for one in found if one.turned]


def _touched(club: Club, key: str, as_of: date, green: Green | None) -> list[Establishment]:
    rebuilds = greens.current_establishments(club)
    if green is not None:
        return [rebuilds[green.pk]] if green.pk in rebuilds else []
    own = settings.greens_of_their_own(club, key, as_of)
    return [one for green_id, one in rebuilds.items() if green_id not in own]
