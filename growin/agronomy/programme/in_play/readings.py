"""Readings of a year in play: Poa in spring and autumn, the face, organic matter, firmness month by month."""

from dataclasses import dataclass

from growin.agronomy.defaults import COMMON_PRACTICE, PUBLISHED
from growin.agronomy.measures import measure_of
from growin.agronomy.programme.in_play.span import Month, Span
from growin.agronomy.programme.plan import Plan
from growin.agronomy.programme.step import READING, Step

FACE = "face_crossed"


@dataclass(frozen=True)
class _Due:
    """What is read and on which day of its month; ``how`` and the figure count come from the measure."""

    measure: str
    day: int
    why: str
    source: str
    mark: str = COMMON_PRACTICE
    cautions: tuple[str, ...] = ()


_POA = _Due(
    "poa_share",
    15,
    "whether it comes in or goes out is seen over the years only, spring and autumn apart",
    "each May and October",
)
_FACE = _Due(
    FACE,
    15,
    "turf lives on its own soil until roots cross; a layer that shows wants coring",
    "each spring after turfing",
    cautions=("buried_services",),
)
_ORGANIC = _Due(
    "organic_matter",
    15,
    "it steers coring and sand: under 6 % at 0–20 mm, under 4 % at 20–40 mm, by one method through the years",
    "STRI 2010",
    PUBLISHED,
    cautions=("buried_services",),
)
_HARDNESS = _Due("hardness", 18, "80–100 gravities with the 0.5 kg hammer; links more", "STRI", PUBLISHED)
_MOISTURE = _Due(
    "moisture",
    18,
    "15–25 % in summer; at or under 12 % young turf wants water",
    "in summer; from memory for young turf",
)


def steps(plan: Plan, span: Span) -> list[Step]:
    """Every reading due in these months."""
    return [_step(month, due) for month in span.months for due in _due_in(plan, month)]


def _due_in(plan: Plan, month: Month) -> list[_Due]:
    settings = plan.settings
    firmness = settings["in_play.firmness_from"], settings["in_play.firmness_until"]
    wanted = (
        (_POA, month.northern in (settings["in_play.poa_spring"], settings["in_play.poa_autumn"])),
        (_FACE, plan.facts.is_turf and month.northern == settings["in_play.face"]),
        (_ORGANIC, month.northern == settings["in_play.organic_matter"]),
        (_HARDNESS, month.is_within(*firmness)),
        (_MOISTURE, month.is_within(*firmness)),
    )
    return [due for due, is_due in wanted if is_due]


def _step(month: Month, due: _Due) -> Step:
    measure = measure_of(due.measure)
    return month.step(
        f"reading-{due.measure}",
        READING,
        due.day,
        measure=due.measure,
        what=measure.words,
        how=measure.how_to,
        why=due.why,
        source=due.source,
        mark=due.mark,
        cautions=due.cautions,
    )
