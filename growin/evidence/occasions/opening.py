"""The planned opening day of a green against its forecast; what is said when it has slipped past."""

from dataclasses import dataclass
from datetime import date

from greens.choices import Role
from greens.models import Establishment
from growin.agronomy.opening_early import consequences
from growin.agronomy.plain_words import counted, day
from growin.agronomy.slipping import Slip
from growin.evidence.chance import Chance, chance_from
from growin.evidence.occasions.look import Look
from growin.evidence.occasions.words import lines
from growin.evidence.readiness import named
from growin.models import Basis
from growin.queries import forecast as forecasts

#: Who hears first: those whose day it is while nothing is promised, else the one who may close.
FIRST = {Basis.PROPOSED: Role.COMMITTEE, Basis.DECIDED: Role.HEAD, Basis.PROGRAMME: Role.HEAD}


@dataclass(frozen=True)
class Planned:
    """A green that is to open on a day, and what the newest forecast says of that day."""

    establishment: Establishment
    on: date
    basis: str
    slip: Slip
    chance: Chance
    unmet: str

    @property
    def first(self) -> str:
        return FIRST[self.basis]

    @property
    def subject(self) -> str:
        return f"{self.establishment.green}: not likely to be ready by {day(self.on)}"

    @property
    def text(self) -> str:
        """The day, the forecast, what holds it back, what an earlier day costs."""
        rebuilt = self.establishment
        costs = consequences(rebuilt.species, rebuilt.is_turf)[:2]
        return lines(
            f"Opening is {Basis(self.basis).label} for {day(self.on)}. {self.forecast}",
            f"Chance to be ready by then: {self.chance.words}.",
            f"Holding it back: {self.unmet}." if self.unmet else "",
            *(f"{one.words} ({one.source})" for one in costs),
            "The forecast advises; the committee decides.",
        )

    @property
    def forecast(self) -> str:
        likely, days = self.slip.likely, self.slip.days
        if likely is None:
            return "The forecast has it ready beyond all the days that it looks at."
        late = f"{day(likely, self.on)}, {counted(days, 'days')} later"
        return f"The forecast has it ready, as likely as not, by {late}."


def planned(look: Look, rebuild: Establishment) -> Planned | None:
    """The day that stands, with its forecast; None without a day to come or without a forecast."""
    known, row = _day(look, rebuild), look.forecasts.get(rebuild.pk)
    told = forecasts.as_forecast(row) if row else None
    if known is None or told is None or look.is_open(rebuild):
        return None
    on, basis = known
    verdict = look.judged[rebuild.pk].verdict
    slip, unmet = Slip(on, told.p50), named([one.words for one in verdict.unmet])
    return Planned(rebuild, on, basis, slip, chance_from(told, on), unmet)


def _day(look: Look, rebuild: Establishment) -> tuple[date, str] | None:
    """Proposed before decided before planned; a day gone by is no plan."""
    proposal, play = look.proposals.get(rebuild.pk), look.plays.get(rebuild.pk)
    if proposal:
        return proposal.opening_on, Basis.PROPOSED
    if play and play.coming and play.coming.pattern != "closed":
        return play.coming.from_day, Basis.DECIDED
    drawn = look.opening_days.get(rebuild.pk)
    return (drawn, Basis.PROGRAMME) if drawn and drawn >= look.on else None
