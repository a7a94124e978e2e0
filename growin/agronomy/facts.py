"""What was seen, as plain data: the evidence that criteria are judged on."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta


@dataclass(frozen=True)
class ReadingFacts:
    """One reading: measure key, day, cleaned values and how they were taken."""

    measure: str
    on: date
    values: Sequence
    protocol: Mapping = field(default_factory=dict)


@dataclass(frozen=True)
class HeightOnDay:
    """A height of cut in mm on a day: ``measured`` on the green, or set on the bench."""

    on: date
    height_mm: float
    measured: bool = False
    scalped: bool = False


@dataclass(frozen=True)
class HeightFacts:
    """Heights in any order, and the opening height in mm (None: not set yet)."""

    heights: Sequence[HeightOnDay] = ()
    opening_height_mm: float | None = None


@dataclass(frozen=True)
class GrowthFacts:
    """Daily means and clippings.

    ``air_c`` and ``soil_c``: °C by day (soil at 100 mm, 9 am), measured days only;
    ``clippings_ml_m2``: ml/m² by day of cut, cuts that were not emptied as 0.
    """

    air_c: Mapping[date, float] = field(default_factory=dict)
    soil_c: Mapping[date, float] = field(default_factory=dict)
    clippings_ml_m2: Mapping[date, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Evidence:
    """All that is known of one green's establishment.

    ``establishment`` is the stored word ("seed", "turf_relaid" …); ``gate_on`` the first day
    the hard gate allows, ``gate_words`` why; ``proposed_on`` the opening day in mind.
    """

    establishment: str
    readings: Sequence[ReadingFacts] = ()
    heights: HeightFacts = HeightFacts()
    growth: GrowthFacts = GrowthFacts()
    gate_on: date | None = None
    gate_words: str = ""
    proposed_on: date | None = None

    @property
    def from_seed(self) -> bool:
        """Whether the green was sown."""
        return self.establishment == "seed"


@dataclass(frozen=True)
class Newest:
    """The newest values of one measure, with the day they were finished on."""

    on: date
    values: tuple
    protocols: tuple[Mapping, ...]


def newest(evidence: Evidence, measure: str, as_of: date, *, count: int, pool_days: float) -> Newest | None:
    """The newest reading of ``measure`` on or before ``as_of``; None when there is none.

    Readings of one day are taken together. Where they hold fewer than ``count`` values, those
    of the ``pool_days`` before are added, day by day: the rest of a set finished later.
    """
    seen = [one for one in evidence.readings if one.measure == measure and one.on <= as_of]
    if not seen:
        return None
    last = max(one.on for one in seen)
    taken: list[ReadingFacts] = []
    for on in sorted({one.on for one in seen}, reverse=True):
        if (last - on).days > pool_days or sum(len(one.values) for one in taken) >= count:
            break
        taken += [one for one in seen if one.on == on]
    values = tuple(value for one in taken for value in one.values)
    return Newest(last, values, tuple(one.protocol for one in taken))


def days_before(on: date, count: int) -> list[date]:
    """The ``count`` days that end with ``on``, oldest first."""
    return [on - timedelta(days=back) for back in range(count - 1, -1, -1)]
