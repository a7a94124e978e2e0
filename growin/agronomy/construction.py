"""The record of the build against what a green should be: row by row, in or out.

Nothing is refused for being out: the record says what is out, and the programme carries it
as a risk. Laboratory figures are judged inside the laboratory's own spread.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from growin.agronomy import construction_rows as rows
from growin.agronomy import rootzone as sizes
from growin.agronomy.build_facts import EXCAVATION, BuildFacts, MaterialFacts
from growin.agronomy.construction_defaults import DEFAULTS
from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT
from growin.agronomy.plain_words import amount, counted, day

__all__ = ["DEFAULTS", "NOT_KNOWN", "OUT", "WITHIN", "RowJudgement", "judge_build", "risks_of"]

WITHIN, OUT, NOT_KNOWN = "within", "out", "not known"
HAIR = 1e-9

Settings = Mapping[str, float]


@dataclass(frozen=True)
class RowJudgement:
    """One row: wanted and found in words, ``state`` within, out or not known; when out, what it
    means for the grow-in and the ``risk`` the programme carries. Depths in mm below the
    finished level, where it lies in the section (None: nowhere)."""

    item: str
    words: str
    wanted: str
    found: str
    state: str
    meaning: str = ""
    risk: str = ""
    mark: str = COMMON_PRACTICE
    source: str = ""
    depth_from_mm: float | None = None
    depth_to_mm: float | None = None


def judge_build(facts: BuildFacts, settings: Settings | None = None) -> tuple[RowJudgement, ...]:
    """Every row of the record judged, from the digging up to the turf.

    ``settings`` overrides :data:`DEFAULTS` and the limits of :mod:`growin.agronomy.rootzone` by key.
    """
    kept = {key: one.value for key, one in rows.LIMITS.items()} | dict(settings or {})
    return (
        *_depth_rows(facts, kept),
        *_drain_rows(facts, kept),
        *_gravel_rows(facts, kept),
        *_rootzone_rows(facts, kept),
        *_water_rows(facts),
        *_turf_rows(facts, kept),
    )


def risks_of(judged: Sequence[RowJudgement]) -> tuple[str, ...]:
    """The risks of the rows that are out, each once, in order."""
    return tuple(dict.fromkeys(one.risk for one in judged if one.state == OUT and one.risk))


def _depth_rows(facts: BuildFacts, settings: Settings) -> list[RowJudgement]:
    kind = "excavation_blinded" if facts.blinded else "excavation"
    words = f"Excavation {'with' if facts.blinded else 'without'} a blinding layer"
    dug = rows.Bounds(
        "excavation",
        words,
        f"build.{kind}_least_mm",
        f"build.{kind}_most_mm",
        rows.DIGGING,
        rows.OVERDUG,
        layer=EXCAVATION,
    )
    bounds = (dug, rows.GRAVEL_DEPTH, *((rows.BLINDING_DEPTH,) if facts.blinded else ()), rows.ROOTZONE_DEPTH)
    return [_row(one, facts.readings(one.layer), facts, settings) for one in bounds]


def _drain_rows(facts: BuildFacts, settings: Settings) -> list[RowJudgement]:
    ranged = [
        _row(one, _known(getattr(facts.drains, name)), facts, settings) for name, one in rows.DRAIN_ROWS
    ]
    yes = (
        ("reaches_edge", "Laterals carried to the edge", facts.drains.reaches_edge),
        ("perforated", "Pipe perforated", facts.drains.perforated),
    )
    return ranged + [_yes_row(item, words, value, rows.DRAINS_OUT) for item, words, value in yes]


def _gravel_rows(facts: BuildFacts, settings: Settings) -> list[RowJudgement]:
    if not facts.blinded:
        return _factor_rows(facts, settings)
    found = _share_rows(rows.BLINDED_GRAVEL_ROWS, facts.gravel, facts, settings)
    return found + _share_rows(rows.BLINDING_ROWS, facts.blinding, facts, settings)


def _factor_rows(facts: BuildFacts, settings: Settings) -> list[RowJudgement]:
    gravel, mix = facts.gravel, facts.rootzone
    found = (gravel.diameter_mm(15), gravel.diameter_mm(90), mix.diameter_mm(85), mix.diameter_mm(15))
    factors = (None, None, None) if None in found else sizes.gravel_suitability(*found)
    return [
        _row(one, _known(factor), facts, settings)
        for one, factor in zip(rows.FACTOR_ROWS, factors, strict=True)
    ]


def _rootzone_rows(facts: BuildFacts, settings: Settings) -> list[RowJudgement]:
    shares = _share_rows(rows.GRADING_ROWS, facts.rootzone, facts, settings)
    tested = [
        _row(one, _known(getattr(facts.rootzone, name)), facts, settings) for name, one in rows.ROOTZONE_ROWS
    ]
    return shares + tested


def _share_rows(shares, material: MaterialFacts, facts: BuildFacts, settings: Settings) -> list[RowJudgement]:
    return [_row(one, _known(_share(material, low, high)), facts, settings) for low, high, one in shares]


def _share(material: MaterialFacts, from_mm: float, to_mm: float) -> float | None:
    if to_mm != rows.ALL:
        return material.between_percent(from_mm, to_mm)
    passing = material.passing_percent(from_mm)
    return None if passing is None else 100 - passing


def _known(value: float | None) -> tuple[float, ...]:
    return () if value is None else (value,)


def _row(bounds: rows.Bounds, values: Sequence[float], facts: BuildFacts, settings: Settings) -> RowJudgement:
    least, most = bounds.limits(settings)
    band = settings[bounds.band] if bounds.band else 0.0
    state, (meaning, risk) = _state(bounds, values, band, settings)
    top, foot = facts.lies_at(bounds.layer) if bounds.layer else (None, None)
    shown = bounds.shown_by
    return RowJudgement(
        bounds.item,
        bounds.words,
        _wanted(least, most, shown.unit),
        _found(values, least, most, band, shown.unit),
        state,
        meaning,
        risk,
        shown.mark,
        shown.source,
        top,
        foot,
    )


def _state(
    bounds: rows.Bounds, values: Sequence[float], band: float, settings: Settings
) -> tuple[str, tuple[str, str]]:
    if not len(values):
        return NOT_KNOWN, ("", "")
    least, most = bounds.limits(settings)
    if least is not None and min(values) < least * (1 - band) - HAIR:
        return OUT, bounds.if_less
    if most is not None and max(values) > most * (1 + band) + HAIR:
        return OUT, bounds.if_more
    return WITHIN, ("", "")


def _wanted(least: float | None, most: float | None, unit: str) -> str:
    if least is None:
        return f"at most {amount(most, unit)}"
    if most is None:
        return f"at least {amount(least, unit)}"
    return f"{amount(least)}–{amount(most, unit)}"


def _found(values: Sequence[float], least, most, band: float, unit: str) -> str:
    if not len(values):
        return "not recorded"
    outside = sum(not _inside(one, least, most, 0.0) for one in values)
    if len(values) == 1:
        inside_spread = outside and _inside(values[0], least, most, band)
        return amount(values[0], unit) + (", inside the laboratory's spread" if inside_spread else "")
    span = f"{amount(min(values))}–{amount(max(values), unit)} at {counted(len(values), 'places')}"
    return f"{span}, {outside} of them out" if outside else span


def _inside(value: float, least, most, band: float) -> bool:
    over = most is not None and value > most * (1 + band) + HAIR
    return not over and (least is None or value >= least * (1 - band) - HAIR)


def _yes_row(item: str, words: str, value: bool | None, out: tuple[str, str], **more) -> RowJudgement:
    if value is None:
        return RowJudgement(item, words, "yes", "not recorded", NOT_KNOWN, **more)
    meaning, risk = ("", "") if value else out
    return RowJudgement(
        item, words, "yes", "yes" if value else "no", WITHIN if value else OUT, meaning, risk, **more
    )


def _water_rows(facts: BuildFacts) -> list[RowJudgement]:
    water = facts.irrigation
    by_day = (
        ("irrigation_live", "Irrigation live before the first turf or seed", water.live_on),
        ("heads_audited", "Heads audited before the first turf or seed", water.audited_on),
        ("hose_ready", "Hose at the green before the first turf or seed", water.hose_ready_on),
    )
    return [_by_the_day(item, words, on, facts) for item, words, on in by_day]


def _by_the_day(item: str, words: str, on, facts: BuildFacts) -> RowJudgement:
    down = facts.established_on
    wanted = f"by {day(down)}" if down else "by the day of laying or sowing"
    if on is None or down is None:
        return RowJudgement(item, words, wanted, f"on {day(on)}" if on else "not recorded", NOT_KNOWN)
    late = on > down
    meaning, risk = rows.NO_WATER if late else ("", "")
    return RowJudgement(item, words, wanted, f"on {day(on)}", OUT if late else WITHIN, meaning, risk)


def _turf_rows(facts: BuildFacts, settings: Settings) -> list[RowJudgement]:
    """The turf's soil against the rootzone under it, by what is finer than 0.15 mm."""
    if facts.turf_soil is None:
        return []
    row = partial(
        RowJudgement, "turf_soil", "Soil of the turf", "no finer than the rootzone", mark=OUR_JUDGEMENT
    )
    turf, mix = facts.turf_soil.passing_percent(0.15), facts.rootzone.passing_percent(0.15)
    if None in (turf, mix):
        return [row("not recorded", NOT_KNOWN)]
    found = f"{amount(turf, '%')} finer than 0.15 mm, {amount(mix, '%')} in the rootzone"
    if turf - mix > settings["build.turf_fines_over_percent"]:
        return [row(found, OUT, *rows.FINER_TURF)]
    return [row(found, WITHIN)]
