"""What has changed since a programme was drawn: work, readings, facts of the record, settings."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from datetime import date

from growin.agronomy.closed_time import in_words
from growin.agronomy.plain_words import amount, counted, day
from growin.agronomy.programme import TABLES, GreenFacts
from growin.agronomy.programme.done import Done
from growin.models import ProgrammeStep

FACT_WORDS = {
    "area_m2": ("Area", "m²"),
    "establishment": ("Kind of rebuild", ""),
    "species": ("Species", ""),
    "established_on": ("Day of laying or sowing", ""),
    "latitude_deg": ("Latitude", "°"),
    "summer_height_mm": ("Summer height", "mm"),
    "others_height_mm": ("Height of the other greens", "mm"),
    "adviser_agrees": ("The adviser's word for the shorter gate", ""),
    "risks": ("What is out in the build", ""),
    "distance_to_water_m": ("Distance to water", "m"),
    "bulk_density_t_m3": ("Bulk density of the sand", "t/m³"),
    "closed_from": ("No feeding from", ""),
    "closed_until": ("No feeding until", ""),
    "year_limit_n_kg_ha": ("Nitrogen a year, at most", "kg N/ha"),
    "year_limit_p_kg_ha": ("Phosphorus (P) a year, at most", "kg P/ha"),
}
DAYS_OF_YEAR = frozenset({"closed_from", "closed_until"})
SEEN = {
    "knitted_on": "knitted",
    "emerged_on": "through",
    "rooted_on": "rooted",
    "covered_on": "covering",
    "opened_on": "in play",
}
CUTTING = frozenset({"cut", "mower_set"})
DONE_WORDS = {"feed": "fed", "dressing": "sanded", "roll": "rolled", "hand_water": "watered by hand"}


@dataclass(frozen=True)
class Change:
    """One fact or setting, from and to, as people read it."""

    words: str
    before: str
    after: str


def changed_facts(old: GreenFacts, new: GreenFacts) -> list[Change]:
    """Facts of the record that differ."""
    return [
        Change(words, *(fact_shown(name, getattr(facts, name), unit) for facts in (old, new)))
        for name, (words, unit) in FACT_WORDS.items()
        if getattr(old, name) != getattr(new, name)
    ]


def fact_shown(name: str, value, unit: str) -> str:
    """A fact as people read it, days of the year in words."""
    return shown(in_words(value) if name in DAYS_OF_YEAR else value, unit)


def changed_settings(old: Mapping[str, float], new: Mapping[str, float]) -> list[Change]:
    """Constants of the programme that differ."""
    defaults = [one for table in TABLES for one in table.values()]
    return [
        Change(one.words, shown(old.get(one.key), one.unit), shown(new[one.key], one.unit))
        for one in defaults
        if one.key in new and old.get(one.key) != new[one.key]
    ]


def shown(value, unit: str = "") -> str:
    """A fact as people read it."""
    if value is None or value in ((), ""):
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, date):
        return f"{day(value)} {value.year}"
    if isinstance(value, tuple):
        return ", ".join(one.replace("_", " ") for one in value)
    return amount(value, unit, 3) if isinstance(value, int | float) else str(value)


def work_since(old: Done, new: Done) -> Iterator[str]:
    """What was done and seen since, in a few phrases; of what was known then some no longer tells."""
    for words, before, after in (
        ("feeds", old.feeds, new.feeds),
        ("dressings", old.dressings, new.dressings),
        ("cuts", old.cuts, new.cuts),
    ):
        more = Counter(on for on, _ in after) - Counter(on for on, _ in before)
        if more:
            yield f"{counted(more.total(), words)} since"
    yield from (f"{words} by {day(on)}" for words, on in seen_since(old, new))


def seen_since(old: Done, new: Done) -> list[tuple[str, date]]:
    """What the green itself has shown since: rooted, covering, in play."""
    known = {one.name: getattr(new, one.name) for one in fields(Done) if one.name in SEEN}
    return [(SEEN[name], on) for name, on in known.items() if on and on != getattr(old, name)]


def work_words(step: ProgrammeStep, old: Done, new: Done) -> str:
    """Which work or reading moves a step: "fed last on Thu 9 April"."""
    last = new.last.get(step.kind)
    if last and last != old.last.get(step.kind):
        return f"{DONE_WORDS.get(step.kind, 'done')} last on {day(last)}"
    if step.kind in CUTTING and new.height:
        height_mm, since = new.height
        return f"cut at {amount(height_mm, 'mm', 2)} since {day(since)}"
    seen = " and ".join(f"{words} by {day(on)}" for words, on in seen_since(old, new))
    is_cut = new.height is not None and new.height != old.height
    cut = f"cut at {amount(new.height[0], 'mm', 2)} since {day(new.height[1])}" if is_cut else ""
    first, second = (seen, cut) if step.kind in DONE_WORDS else (cut, seen)
    return first or second or (f"what was still to do on {day(new.as_of)}" if new.as_of else "work since")
