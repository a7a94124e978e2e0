"""One drawing of a programme: facts, weather, settings, and the days that everything hangs on."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import cached_property

from growin.agronomy.climate import LONGEST_DAYS, Climate
from growin.agronomy.gates import Gate, earliest_opening
from growin.agronomy.heights import Rung, ladder, opening_height_mm
from growin.agronomy.programme import pace
from growin.agronomy.programme.done import Done, sooner
from growin.agronomy.programme.facts import GreenFacts
from growin.agronomy.programme.rungs import rung_days
from growin.agronomy.season import local_day, northern_month
from growin.agronomy.species import summer_height_mm

DAY = timedelta(days=1)
WITHOUT_OPENING_DAYS = 365


@dataclass(frozen=True)
class Rest:
    """A winter without growth: from ``start`` up to, not including, ``end``."""

    start: date
    end: date


@dataclass(frozen=True)
class Plan:
    """The same green on one course of the weather.

    ``band`` is "early", "likely" or "late": which end of the published spread applies.
    ``done`` is what was done and found so far. Days that the climate never brings are None.
    """

    facts: GreenFacts
    climate: Climate
    settings: Mapping[str, float]
    band: str = pace.LIKELY
    done: Done = field(default_factory=Done)

    @property
    def start(self) -> date:
        """Day of laying or sowing."""
        return self.facts.established_on

    @property
    def latitude_deg(self) -> float:
        """Latitude of the club, the south negative."""
        return self.facts.latitude_deg

    def after(self, days: float) -> date:
        """A day so many days after laying or sowing."""
        return self.start + timedelta(days=round(days))

    # Winter ------------------------------------------------------------------------------

    @cached_property
    def rests(self) -> tuple[Rest, ...]:
        """The winters from laying on, as far as the place has any."""
        years = range(self.start.year - 1, self.start.year + 4)
        found = (self._rest_after(local_day(year, 9, 1, self.latitude_deg)) for year in years)
        return tuple(rest for rest in found if rest and rest.end > self.start)

    def _rest_after(self, autumn: date) -> Rest | None:
        under = self.settings[f"pace.rest.{'turf' if self.facts.is_turf else 'seed'}_under_c"]
        spring = self._spring_after(autumn)
        mean = self.climate.week_mean_c
        begins = self.climate.first_day(autumn, lambda day: mean(day) < under, (spring - autumn).days - 1)
        if begins is None:
            return None
        ends = self.climate.first_week_at(spring, self.settings["pace.rest.over_c"], 180)
        return Rest(begins, ends or spring + timedelta(days=180))

    def _spring_after(self, autumn: date) -> date:
        month = int(self.settings["pace.rest.until_month"])
        this_year = local_day(autumn.year, month, 1, self.latitude_deg)
        return this_year if this_year > autumn else local_day(autumn.year + 1, month, 1, self.latitude_deg)

    def rest_at(self, day: date) -> Rest | None:
        """The winter that a day lies in, if any."""
        return next((rest for rest in self.rests if rest.start <= day < rest.end), None)

    def resting(self, day: date) -> bool:
        """Whether the green rests on a day."""
        return self.rest_at(day) is not None

    def not_resting(self, day: date) -> date:
        """The day itself, or the end of the winter that it lies in."""
        rest = self.rest_at(day)
        return rest.end if rest else day

    def feeding_from(self, day: date) -> date | None:
        """The day itself, or the first after the club's closed time; None where it never ends."""
        return self.climate.first_day(day, lambda one: not self.facts.is_closed(one), 366)

    @cached_property
    def first_rest(self) -> Rest | None:
        """The first winter after laying or sowing."""
        return self.rests[0] if self.rests else None

    @cached_property
    def spring(self) -> date:
        """When growth first resumes for turf laid in autumn; the day of knitting elsewhere."""
        begun = self.taken or self.start
        if self.facts.is_autumn_turf and self.first_rest:
            return max(self.first_rest.end, begun)
        return begun

    # Growth ------------------------------------------------------------------------------

    def vigour(self, day: date) -> float:
        """Pace of growth from 0 (none) to 1 (full), from the leaf growth of the week to come."""
        clock = pace.leaf_clock(self.facts.grass, self.settings)
        week = self.climate.sum_between(clock, day, day + timedelta(days=7)) / 7
        return min(1.0, week / self.settings["feeding.full_growth_leaf_c"])

    @cached_property
    def emerged(self) -> date | None:
        """Seedlings through; the day of laying for turf."""
        if self.facts.is_turf:
            return self.start
        return sooner(self._emerged_by_clock(), self.done.emerged_on)

    def _emerged_by_clock(self) -> date | None:
        grass = self.facts.grass
        warmth = self.settings[f"emergence.{grass.group}.c_days"]
        soonest = self.after(grass.emergence_days[0])
        through = self.climate.day_when(pace.emergence_clock(self.settings), self.start, warmth)
        if through is None:
            return None
        warm = self.climate.soil_c
        return self.climate.first_day(max(through, soonest), lambda day: warm(day) >= grass.emergence_soil_c)

    @cached_property
    def knitted(self) -> date | None:
        """Turf knitted to the rootzone; None for seed."""
        if not self.facts.is_turf:
            return None
        clock = self._rooted_by(self.settings["pace.knitted_c_days"])
        return sooner(clock, self.done.knitted_on)

    @cached_property
    def rooted(self) -> date | None:
        """Turf rooted well enough to be fed; seedlings emerged."""
        if not self.facts.is_turf:
            return self.emerged
        clock = self._rooted_by(self.settings["feeding.turf.rooted_c_days"])
        return sooner(clock, self.done.rooted_on)

    def _rooted_by(self, warmth: float) -> date | None:
        return self.climate.day_when(pace.root_clock(self.settings), self.start, warmth)

    @cached_property
    def taken(self) -> date | None:
        """Turf knitted, or seedlings tall enough for their first cut."""
        if self.facts.is_turf or self.emerged is None:
            return self.knitted
        key = f"heights.first_cut.seed_{self.facts.grass.group}_leaf_c_days"
        clock = pace.leaf_clock(self.facts.grass, self.settings)
        grown = self.climate.day_when(clock, self.emerged, self.settings[key])
        return sooner(grown, self.done.cuts[0][0] if self.done.cuts else None)

    def seed_way(self, share: float) -> date | None:
        """The day by which a seeded green has gone a share of the way to opening."""
        if self.emerged is None:
            return None
        target = self.settings[f"pace.seed_{self.facts.grass.group}.{self.band}"]
        return self.climate.day_when(pace.seed_clock(self.settings), self.start, target * share)

    @cached_property
    def covered(self) -> date | None:
        """Seed covering 95 %, by its readings where there are any; None for turf."""
        if self.facts.is_turf or self.done.covered_on:
            return self.done.covered_on
        clock, bare = self.seed_way(self.settings["pace.covered_share"]), self.done.not_covered_on
        return max(clock, bare + DAY) if clock and bare else clock

    @cached_property
    def matured(self) -> date | None:
        """The clock's own day of opening, before gate, height and season have their say."""
        if self.facts.is_turf:
            return self._rooted_by(self.settings[f"pace.turf.{self.band}"])
        return self.seed_way(1.0)

    # Heights and opening -----------------------------------------------------------------

    @cached_property
    def summer_mm(self) -> float:
        """Summer height of this green, mm."""
        return summer_height_mm(self.facts.species, self.settings, self.facts.summer_height_mm)

    @cached_property
    def opening_mm(self) -> float:
        """Height aimed at for opening, mm."""
        return opening_height_mm(
            self.facts.species,
            self.settings,
            summer_mm=self.facts.summer_height_mm,
            others_mm=self.facts.others_height_mm,
        )

    @cached_property
    def ladder(self) -> tuple[tuple[Rung, date], ...]:
        """Every rung with its day, as far as the climate brings them."""
        rungs = ladder(
            establishment=self.facts.establishment,
            species=self.facts.species,
            autumn_turf=self.facts.is_autumn_turf,
            opening_mm=self.opening_mm,
            settings=self.settings,
        )
        return rung_days(self, rungs)

    @cached_property
    def gate(self) -> Gate:
        """Earliest day of opening that turf or seed allows."""
        return earliest_opening(
            establishment=self.facts.establishment,
            species=self.facts.species,
            established_on=self.start,
            latitude_deg=self.latitude_deg,
            settings=self.settings,
            adviser_agrees=self.facts.adviser_agrees,
        )

    @cached_property
    def opening(self) -> date | None:
        """The day on which gate, roots, height and growth have all been reached; once in play, its first."""
        if self.done.opened_on:
            return self.done.opened_on
        held = self._height_held()
        if held is None or self.matured is None:
            return None
        warm = self.settings["pace.opening_air_c"]
        return self.climate.first_day(
            max(self.gate.day, self.matured, held, self._today()),
            lambda day: self.climate.week_mean_c(day) >= warm and not self.resting(day),
        )

    def _today(self) -> date:
        """The day of the drawing, before which nothing can open; not looked at years after laying."""
        today = self.done.as_of
        return today if today and (today - self.start).days <= LONGEST_DAYS else self.start

    def _height_held(self) -> date | None:
        if not self.ladder or self.ladder[-1][0].height_mm > self.opening_mm:
            return None
        return self.ladder[-1][1] + timedelta(days=round(self.settings["heights.hold.opening_days"]))

    @cached_property
    def horizon(self) -> date:
        """The last day of the weekly work: some weeks after opening."""
        if self.opening is None:
            return self.after(WITHOUT_OPENING_DAYS)
        return self.opening + timedelta(days=round(self.settings["pace.after_opening_days"]))

    # Days in a row -----------------------------------------------------------------------

    def in_rounds(
        self, chain: str, first: date | None, interval: Callable[[date], float], last: date
    ) -> list[date]:
        """Days from ``first`` to ``last``, each ``interval(day)`` days on; none while the green rests.

        Rounds of the chain that were done stand on their day, and the next follows from there.
        """
        days, day = [], first and self.not_resting(first)
        while day and day <= last:
            day = self.done.placed(chain, len(days) + 1, day, interval)
            days.append(day)
            day = self.not_resting(day + timedelta(days=max(1, round(interval(day)))))
        return days

    def month_of(self, day: date) -> int:
        """The northern month of a day's season."""
        return northern_month(day.month, self.latitude_deg)
