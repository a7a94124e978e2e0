"""What is left in the rootzone, and what to give: a green's water since it was last full.

Nomenclature: mm of water (1 mm = 1 litre on each square metre); depletion = mm below what the
rootzone holds against gravity; moisture in % by volume.
"""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from growin.agronomy.defaults import FROM_MEMORY, OUR_JUDGEMENT, PUBLISHED, Default, table
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.water import AvailableWater, available_water, soil_water_balance

DEFAULTS = table(
    Default(
        "water.field_capacity_percent", 20, "%", "water that the rootzone holds, where no sheet says", 8, 40,
        PUBLISHED, "middle of the 15–25 % capillary pores: USGA",
    ),
    Default("water.wilting_percent", 5, "%", "water that roots cannot get", 1, 20, OUR_JUDGEMENT),
    Default(
        "water.depletion_share", 0.4, "", "share of the water taken without stress", 0.1, 0.8, FROM_MEMORY,
        "FAO Irrigation and Drainage Paper 56, Table 22, cool-season turf",
    ),
    Default(
        "water.root_depth_mm", 100, "mm", "depth of the roots, where none was read", 10, 300, OUR_JUDGEMENT
    ),
    Default(
        "water.fresh_root_depth_mm", 25, "mm", "depth of the roots of fresh turf or seedlings", 5, 100,
        OUR_JUDGEMENT, "little more than the turf itself",
    ),
    Default("water.fresh_days", 28, "days", "turf or seedlings count as fresh for", 0, 120, OUR_JUDGEMENT),
    Default("water.stale_days", 3, "days", "without weather, then nothing is said", 0, 14, OUR_JUDGEMENT),
    Default("water.look_back_days", 45, "days", "how far back the balance starts", 10, 120, OUR_JUDGEMENT),
    Default(
        "water.most_at_once_mm", 8, "mm", "most water at once, so that none runs off", 2, 50, OUR_JUDGEMENT
    ),
    Default(
        "water.lower_quarter_percent", 75, "%", "evenness of the irrigation, where none was read", 30, 100,
        OUR_JUDGEMENT,
    ),
)  # fmt: skip

Settings = Mapping[str, float]
#: Less than this is no water, mm.
HAIR_MM = 0.05


class Store(NamedTuple):
    """What a rootzone holds: field capacity and wilting point in % by volume, roots in mm."""

    field_capacity_percent: float
    wilting_percent: float
    root_depth_mm: float

    def water(self, depletion_share: float) -> AvailableWater:
        """Water the roots can reach, all and readily, mm."""
        held = self.field_capacity_percent / 100, self.wilting_percent / 100
        return available_water(*held, self.root_depth_mm, depletion_share)

    def depletion_mm(self, moisture_percent: float) -> float:
        """Depletion that a reading of moisture tells, mm, between 0 and all there is."""
        missing = (self.field_capacity_percent - moisture_percent) / 100 * self.root_depth_mm
        return min(max(0.0, missing), self.water(1.0).total_mm)


class DayOfWater(NamedTuple):
    """What came and what turf with all it wants would use on one day, mm; whether that is estimated."""

    on: date
    rain_mm: float
    irrigation_mm: float
    turf_mm: float
    is_estimated: bool = False


class Standing(NamedTuple):
    """Where the rootzone stands at the end of the last day.

    ``full_on`` : the last day on which it was full, or None when the balance only assumes that it
    was full at its start. ``asked_mm`` : turf's mean use of the last seven days.
    """

    as_of: date
    depletion_mm: float
    total_mm: float
    readily_mm: float
    asked_mm: float
    full_on: date | None
    estimated_days: int

    @property
    def left_mm(self) -> float:
        """Water that the roots can still reach."""
        return self.total_mm - self.depletion_mm

    @property
    def is_due(self) -> bool:
        """Whether the water that roots take without stress is used up."""
        return self.depletion_mm >= self.readily_mm - HAIR_MM

    @property
    def days_left(self) -> int | None:
        """Whole days until it is due if the days stay alike and dry; None when hardly anything is used."""
        if self.is_due:
            return 0
        return None if self.asked_mm < HAIR_MM else int((self.readily_mm - self.depletion_mm) / self.asked_mm)


def store_of(
    settings: Settings, capillary_percent: float | None = None, root_depth_mm: float | None = None
) -> Store:
    """What a rootzone holds, from the laboratory and the newest cores where they are known.

    Parameters
    ----------
    capillary_percent : by volume, of the rootzone's sheet; field capacity (None: the setting).
    root_depth_mm : above 0, below the surface (None: the setting).

    Source: USGA recommendations for the capillary pores; the rest are settings.
    """
    capacity = settings["water.field_capacity_percent"] if capillary_percent is None else capillary_percent
    depth = root_depth_mm or settings["water.root_depth_mm"]
    return Store(capacity, min(settings["water.wilting_percent"], capacity), depth)


def standing(
    days: Sequence[DayOfWater], store: Store, depletion_share: float, start_mm: float | None = None
) -> Standing:
    """The balance over ``days``, oldest first and without a gap.

    Parameters
    ----------
    days : at least one.
    store : what the rootzone holds.
    depletion_share : 0 to 1, taken without stress.
    start_mm : depletion on the evening before the first day, as a moisture reading tells (None:
        assumed full, and so said).

    Raises ImpossibleValue for no days, days that do not follow each other, or negative water.
    Source: FAO Irrigation and Drainage Paper 56, Eq. 82 to 88.
    """
    _require_following(days)
    water = store.water(depletion_share)
    levels = [water.total_mm] * len(days), [water.readily_mm] * len(days)
    came = [one.rain_mm for one in days], [one.irrigation_mm for one in days]
    used = [one.turf_mm for one in days]
    run = soil_water_balance(min(start_mm or 0.0, water.total_mm), *levels, *came, used)
    week = days[-7:]
    return Standing(
        as_of=days[-1].on,
        depletion_mm=run.depletion_mm[-1],
        total_mm=water.total_mm,
        readily_mm=water.readily_mm,
        asked_mm=sum(one.turf_mm for one in week) / len(week),
        full_on=_full_on(days, run.deep_percolation_mm),
        estimated_days=sum(one.is_estimated for one in days),
    )


def to_give_mm(now: Standing) -> float:
    """Water that fills the rootzone again, mm; nothing while the roots take it without stress."""
    return now.depletion_mm if now.is_due else 0.0


def _full_on(days: Sequence[DayOfWater], drained_mm: Sequence[float]) -> date | None:
    full = (one.on for one, drained in zip(reversed(days), reversed(drained_mm), strict=True) if drained > 0)
    return next(full, None)


def _require_following(days: Sequence[DayOfWater]) -> None:
    if not days:
        raise ImpossibleValue("number of days", 0, "at least 1")
    for before, after in zip(days, days[1:], strict=False):
        if after.on - before.on != timedelta(days=1):
            raise ImpossibleValue("day of the balance", after.on, f"the day after {before.on}")
