"""A step as a page shows it: what the amount means here, what to mind, where the drawing would differ."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from greens.models import Club, WeatherDay
from greens.queries import settings as constants
from growin.agronomy import plain_words
from growin.agronomy.cautions import CAUTIONS, Caution, cautions_for
from growin.agronomy.programme import OPENING_KEY, READING
from growin.agronomy.works import WORKS
from growin.models import Programme, ProgrammeStep
from growin.queries import amounts, facts
from growin.queries.amounts import AsPlanned, ProductAmount
from growin.queries.diary import measured
from growin.queries.remembered import kept_while_the_frame_stands
from growin.queries.standing import Standing

OF_THE_PLACE = frozenset({"fertiliser_near_water"})


@dataclass(frozen=True)
class Round:
    """What all lines of one page share, read once: store, sand, constants, the day's weather."""

    shed: amounts.Store
    bulk_density_t_m3: float
    settings: dict
    weather: WeatherDay | None = None

    @property
    def of_the_day(self) -> dict:
        """The day's weather as cautions ask for it; empty while none was measured."""
        return measured(self.weather)


@dataclass(frozen=True)
class Line:
    """One step of a page."""

    standing: Standing
    products: tuple[ProductAmount, ...]
    sand: str
    cautions: tuple[Caution, ...]
    as_planned: AsPlanned | None
    drawn: str = ""

    @property
    def step(self) -> ProgrammeStep:
        return self.standing.step

    @property
    def green(self):
        return self.standing.green

    @property
    def is_reading(self) -> bool:
        return self.step.kind == READING

    @property
    def is_work(self) -> bool:
        """Whether the diary has an entry for it."""
        return self.step.kind in WORKS

    @property
    def is_opening(self) -> bool:
        """Whether it is the committee's day rather than a job."""
        return self.step.key == OPENING_KEY

    @property
    def pressing(self) -> list[Caution]:
        """Cautions whose condition holds: by the day's weather as far as it was entered, by the place."""
        return [one for one in self.cautions if not one.sentence.startswith("If ")]

    @property
    def conditional(self) -> list[Caution]:
        """Cautions that say their condition, for people to see whether it holds."""
        return [one for one in self.cautions if one not in self.pressing]

    @property
    def of_the_place(self) -> list[Caution]:
        """What holds on this green on any day."""
        return [one for one in self.pressing if one.key in OF_THE_PLACE]

    @property
    def folded(self) -> list[Caution]:
        """All others: the day's own stand at the head of the day's page, once for all greens."""
        return [one for one in self.cautions if one not in self.of_the_place]


@kept_while_the_frame_stands
def round_of(club: Club, on: date, weather: WeatherDay | None = None) -> Round:
    """Read once for a page, a fixed number of queries."""
    in_force = constants.in_force(club, on)
    return Round(amounts.store_of(club), facts.bulk_density_t_m3(club, in_force), in_force, weather)


def lines(standings: Iterable[Standing], shared: Round, programme: Programme | None = None) -> list[Line]:
    """Standings as a page shows them; no queries."""
    drawn = programme.difference.get("drawn", {}) if programme else {}
    return [_line(one, shared, drawn.get(one.step.key)) for one in standings]


def _line(standing: Standing, shared: Round, drawn: dict | None) -> Line:
    step, green = standing.step, standing.green
    return Line(
        standing=standing,
        products=tuple(amounts.of_step(step, green.area_m2, shared.shed)),
        sand=amounts.sand_words(step, green.area_m2, shared.bulk_density_t_m3),
        cautions=_cautions(step, green.distance_to_water_m, shared),
        as_planned=amounts.as_planned(step, green.area_m2, shared.shed),
        drawn=_drawn(step, drawn),
    )


def _cautions(step: ProgrammeStep, distance_to_water_m, shared: Round) -> tuple[Caution, ...]:
    if step.kind not in WORKS:
        return tuple(CAUTIONS[key] for key in step.cautions if key in CAUTIONS)
    distance = None if distance_to_water_m is None else float(distance_to_water_m)
    return cautions_for(
        step.kind, distance_to_water_m=distance, settings=shared.settings, **shared.of_the_day
    )


def _drawn(step: ProgrammeStep, drawn: dict | None) -> str:
    """What the drawing would have in place of the head greenkeeper's own: "Thu 12 March, 6 kg N/ha"."""
    if not drawn or step.is_dropped:
        return ""
    day = plain_words.day(date.fromisoformat(drawn["likely"]))
    amount = drawn.get("amount")
    return day if amount is None else f"{day}, {plain_words.amount(amount, step.unit, 2)}"
