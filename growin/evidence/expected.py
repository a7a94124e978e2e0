"""When a green may be ready, as its pages say it: the days, the chance, what holds it back, how it moved."""

from dataclasses import dataclass
from datetime import date

from greens.models import Establishment
from growin.agronomy.criteria import CRITERIA
from growin.agronomy.forecast import Forecast, behind, chance_words
from growin.agronomy.plain_words import counted, day
from growin.agronomy.verdict import GATE, Verdict
from growin.evidence.readiness import named
from growin.models import KeptForecast
from growin.queries import forecast as forecasts
from growin.queries.fan import Fan, fan_of

#: Shares smaller than this are not worth a line (our judgement).
LEAST_SHARE = 0.02
READY = "By all that is known it is ready today."
BEYOND = "beyond the days looked at"
TIME = "Time since laying or sowing"


@dataclass(frozen=True)
class Expected:
    """The newest forecast of a rebuild by a day; ``told`` is None where only its dates are kept, or none.

    ``unmet`` names the bars that the verdict of that day finds unmet.
    """

    row: KeptForecast
    told: Forecast | None
    is_stale: bool
    unmet: str = ""

    @property
    def refused(self) -> str:
        return self.row.refused

    @property
    def days(self) -> list[tuple[str, str]]:
        """The three days in words, with the chance that each stands for."""
        row = self.row
        said = (("1 in 10", row.p10), ("as likely as not", row.p50), ("9 in 10", row.p90))
        return [(words, long(on, row.as_of)) for words, on in said]

    @property
    def sentence(self) -> str:
        """ "As likely as not by Fri 24 April; 1 in 10 by Sat 18 April, 9 in 10 by Thu 14 May"."""
        row = self.row
        if row.p50 is not None and row.p50 <= row.as_of:
            return (
                f"What grows is ready; still to be read or put right: {self.unmet}." if self.unmet else READY
            )
        first, likely, last = (long(on, row.as_of) for on in (row.p10, row.p50, row.p90))
        return f"As likely as not by {likely}; 1 in 10 by {first}, 9 in 10 by {last}."

    @property
    def season(self) -> str:
        """The chance before growth next stops, and so the share that is not ready this season."""
        if self.told is None:
            return ""
        missing = chance_words(1 - self.told.within_season)
        return (
            f"Not ready before growth stops about {day(self.told.season_ends_on, self.row.as_of)}: {missing}."
        )

    @property
    def holding_back(self) -> list[tuple[str, str]]:
        """What is the last to be met, and in how many of the futures, the likeliest first."""
        shares = self.told.holding_back if self.told else {}
        by_share = sorted(
            shares.items(), key=lambda one: (-one[1], one[0])
        )  # a database may forget the order
        large = [(words_of(key), share) for key, share in by_share if share >= LEAST_SHARE]
        return [(words, chance_words(share)) for words, share in large]

    @property
    def rests_on(self) -> str:
        """The evidence behind it in one sentence."""
        knew, told = self.row.knew, self.told
        said = [
            counted(knew.get("readings", 0), "sets of readings"),
            f"{counted(knew.get('weather', 0), 'days of weather')} since laying or sowing",
        ]
        if told:
            said.append(behind(told.histories))
            years = counted(told.weather_years, "seasons of the club's own weather")
            said.append(years if told.weather_years else "the club's normals for the weather to come")
        return ", ".join(said)

    def fan(self, proposed: date | None = None) -> Fan | None:
        return fan_of(self.told, proposed)


def long(on: date | None, beside: date) -> str:
    return BEYOND if on is None else day(on, beside)


def words_of(criterion: str) -> str:
    """A criterion as people say it; the gate is no criterion of the list."""
    return TIME if criterion == GATE else CRITERIA[criterion].words


def expected(verdict: Verdict, establishment: Establishment, on: date | None = None) -> Expected | None:
    """The newest forecast by a day, beside the verdict of that day; None while none was worked out."""
    row = forecasts.kept(establishment, on)
    if row is None:
        return None
    stale = forecasts.is_stale(row, establishment.green.club)
    return Expected(row, forecasts.as_forecast(row), stale, named([one.words for one in verdict.unmet]))
