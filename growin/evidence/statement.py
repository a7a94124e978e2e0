"""What the two pages for the committee say: readiness, the forecast, and the day that is proposed."""

from dataclasses import dataclass
from datetime import date

from greens.models import Club, Green
from growin.agronomy.opening_early import Consequence, consequences
from growin.evidence.expected import Expected, expected
from growin.evidence.outlook import Outlook, outlook
from growin.evidence.readiness import Readiness, readiness_of
from growin.queries.fan import Fan


@dataclass(frozen=True)
class Statement:
    """``known`` is all that the readiness page says; ``outlook`` what a proposed day means, if one is;
    ``expected`` the forecast of the day, none once it is open."""

    known: Readiness
    outlook: Outlook | None = None
    expected: Expected | None = None

    @property
    def green(self) -> Green:
        return self.known.establishment.green

    @property
    def fan(self) -> Fan | None:
        """The picture of the forecast; of earlier days only its dates are kept."""
        return self.expected and self.expected.fan(self.outlook and self.outlook.proposal.opening_on)

    @property
    def consequences(self) -> tuple[Consequence, ...]:
        """What opening early does to this grass; nothing once it is open."""
        rebuilt = self.known.establishment
        return () if self.known.play.is_open else consequences(rebuilt.species, rebuilt.is_turf)


def statement_of(club: Club, green: Green, as_of: date) -> Statement | None:
    """The statement on the rebuild that was under way on a day; none where none was."""
    known = readiness_of(club, green, as_of)
    if known is None:
        return None
    proposed = outlook(known.proposal, as_of) if known.proposal else None
    waits = known.is_laid and not known.play.is_open
    return Statement(known, proposed, expected(known.verdict, known.establishment, as_of) if waits else None)
