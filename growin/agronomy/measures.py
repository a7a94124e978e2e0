"""Measures and their values: one cleaning for form, phone, import and command line.

The table itself stands in :mod:`growin.agronomy.measure_table`.
"""

from collections.abc import Mapping, Sequence

from growin.agronomy import measure_table as listed
from growin.agronomy.fields import DetailError, Field, as_number, as_yes_no, clean_fields, is_empty
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.measure import SHAPE_HITS, SHAPE_NUMBER, SHAPE_ROLLS, SHAPE_YES_NO, Measure

__all__ = [
    "MEASURES",
    "SHAPE_HITS",
    "SHAPE_NUMBER",
    "SHAPE_ROLLS",
    "SHAPE_YES_NO",
    "DetailError",
    "Field",
    "Measure",
    "clean_protocol",
    "clean_values",
    "measure_of",
]

MOST_VALUES = 500
MOST_ROLLS = 12

MEASURES: dict[str, Measure] = {
    one.key: one for one in (*listed.ROOTS, *listed.SURFACE, *listed.GROWTH, *listed.WATER, *listed.PROFILE)
}


def measure_of(key: str) -> Measure:
    """The measure called ``key``.

    Raises
    ------
    ImpossibleValue
        When there is no such measure.
    """
    if key not in MEASURES:
        raise ImpossibleValue("measure", f"“{key}”", "one of: " + ", ".join(MEASURES))
    return MEASURES[key]


def clean_values(measure: Measure | str, values) -> list:
    """The values of one reading, ready to be stored as JSON; empty ones are left out.

    A lone value stands for a list of one. Numbers come back as numbers, answers as booleans,
    frames as {hits, points}, rolls as {first, second} in metres.

    Raises
    ------
    ImpossibleValue
        When there is no such measure, no value at all, too many, or one that cannot be.
    """
    kind = measure_of(measure) if isinstance(measure, str) else measure
    cleaned = [_CLEANERS[kind.shape](kind, one) for one in _listed(values) if not is_empty(one)]
    if not 1 <= len(cleaned) <= MOST_VALUES:
        raise ImpossibleValue(f"values of “{kind.words}”", len(cleaned), f"from 1 to {MOST_VALUES}")
    return cleaned


def _listed(values) -> list:
    alone = isinstance(values, str | Mapping) or not isinstance(values, Sequence)
    return [values] if alone else list(values)


def _number(measure: Measure, value):
    return as_number(measure.label, value, measure.low, measure.high, whole=measure.whole)


def _yes_no(measure: Measure, value) -> bool:
    return as_yes_no(measure.words, value)


def _frame(measure: Measure, value) -> dict:
    given = _mapping(measure, value, "hits", "points")
    most = measure.high
    points = as_number(f"points of “{measure.words}”", given["points"], measure.low, most, whole=True)
    return {
        "hits": as_number(f"hits of “{measure.words}”", given["hits"], 0, points, whole=True),
        "points": points,
    }


def _rolls(measure: Measure, value) -> dict:
    given = _mapping(measure, value, "first", "second")
    return {way: _one_way(measure, given[way]) for way in ("first", "second")}


def _one_way(measure: Measure, rolls) -> list:
    numbers = [_number(measure, one) for one in _listed(rolls) if not is_empty(one)]
    if not 1 <= len(numbers) <= MOST_ROLLS:
        raise ImpossibleValue("balls rolled one way", len(numbers), f"from 1 to {MOST_ROLLS}, usually 3")
    return numbers


def _mapping(measure: Measure, value, *keys: str) -> Mapping:
    if isinstance(value, Mapping) and set(value) == set(keys):
        return value
    raise ImpossibleValue(measure.words, f"“{str(value)[:40]}”", f"given as {' and '.join(keys)}")


_CLEANERS = {SHAPE_NUMBER: _number, SHAPE_YES_NO: _yes_no, SHAPE_HITS: _frame, SHAPE_ROLLS: _rolls}


def clean_protocol(measure: Measure | str, protocol: Mapping) -> dict:
    """How the reading was taken, cleaned; a layer must run downwards.

    Raises
    ------
    ImpossibleValue
        When there is no such measure.
    DetailError
        With one sentence for every field that cannot be.
    """
    kind = measure_of(measure) if isinstance(measure, str) else measure
    cleaned = clean_fields(kind.protocol, protocol)
    _require_downwards(cleaned.get("depth_from_mm"), cleaned.get("depth_to_mm"))
    return cleaned


def _require_downwards(top_mm: float | None, foot_mm: float | None) -> None:
    if top_mm is not None and foot_mm is not None and foot_mm <= top_mm:
        refused = ImpossibleValue("foot of the layer, mm", f"{foot_mm:g}", f"deeper than its top, {top_mm:g}")
        raise DetailError({"depth_to_mm": str(refused)})
