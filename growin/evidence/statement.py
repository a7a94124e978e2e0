"""What the two pages for the committee say: readiness, the forecast, and the day that is proposed."""

from dataclasses import dataclass
from datetime import date

from greens.models import Club, Green
from growin.agronomy.criteria import CRITERIA
from growin.agronomy.forecast import Forecast, chance_words
from growin.agronomy.opening_early import Consequence, consequences
from growin.agronomy.verdict import GATE
from growin.evidence.outlook import Outlook, outlook
from growin.evidence.readiness import Readiness, readiness_of
from growin.queries import forecast as forecasts
from growin.queries.fan import Fan, fan_of

TIME_SINCE = "time since laying or sowing"


@dataclass(frozen=True)
class Statement:
    """``known`` is all that the readiness page says; ``outlook`` what a proposed day means, if one is."""

    known: Readiness
    outlook: Outlook | None = None
    forecast: Forecast | None = None

    @property
    def green(self) -> Green:
        return self.known.establishment.green

    @property
    def fan(self) -> Fan | None:
        return fan_of(self.forecast, self.outlook and self.outlook.proposal.opening_on)

    @property
    def days(self) -> list[tuple[str, date | None]]:
        """The three days of the forecast; None beyond the days looked at."""
        one = self.forecast
        return [("1 in 10", one.p10), ("as likely as not", one.p50), ("9 in 10", one.p90)] if one else []

    @property
    def forecast_is_later(self) -> bool:
        """Whether the forecast knew more than the day of the statement."""
        return self.forecast is not None and self.forecast.as_of > self.known.as_of

    @property
    def holding_back(self) -> list[tuple[str, str]]:
        """What is met last, with the chance that it is, the likeliest first."""
        shares = self.forecast.holding_back if self.forecast else {}
        return [(last_words(key), chance_words(share)) for key, share in shares.items()]

    @property
    def consequences(self) -> tuple[Consequence, ...]:
        """What opening early does to this grass; nothing once it is open."""
        return () if self.known.play.is_open else consequences(self.known.establishment.species)


def last_words(key: str) -> str:
    """What a forecast waits for, in words."""
    if key == GATE:
        return TIME_SINCE
    return CRITERIA[key].words.lower() if key in CRITERIA else key


def statement_of(club: Club, green: Green, as_of: date) -> Statement | None:
    """The statement on the rebuild that was under way on a day; none where none was."""
    known = readiness_of(club, green, as_of)
    if known is None:
        return None
    proposed = outlook(known.proposal, as_of) if known.proposal else None
    return Statement(known, proposed, forecasts.newest(known.establishment))
