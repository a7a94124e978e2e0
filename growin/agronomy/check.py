"""Rows of a check-sheet against the calculations: each figure beside the published one.

A row passes when every expected figure differs from the calculated one by no more than
its tolerance. Lists are compared element by element and must be of one length; true and
false must be equal. A row whose calculation is unknown, or whose inputs are refused, is a
miss with a sentence.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from growin.agronomy.catalogue import Outputs, calculate
from growin.agronomy.impossible import ImpossibleValue

#: What binary arithmetic may add to any tolerance.
FLOATING_POINT = 1e-9
NOT_CALCULATED = "not calculated"


@dataclass(frozen=True)
class Figure:
    """One expected figure of a row beside the calculated one (None where there is none)."""

    key: str
    published: Any
    calculated: Any
    tolerance: float
    agrees: bool


@dataclass(frozen=True)
class RowResult:
    """One row: its figures, whether all agree, and the sentence that says why not."""

    id: str
    title: str
    calculation: str
    source: str
    kind: str
    figures: tuple[Figure, ...]
    passed: bool
    why: str = ""

    def as_dict(self) -> dict[str, Any]:
        """The result as plain words, numbers and lists, for JSON."""
        return asdict(self) | {"figures": [asdict(figure) for figure in self.figures]}


def check_rows(rows: Iterable[Mapping[str, Any]]) -> list[RowResult]:
    """Results of rows, in their order; nothing is raised for a bad row."""
    return [check_row(row) for row in rows]


def check_row(row: Any) -> RowResult:
    """Result of one row; what cannot be calculated is a miss with a sentence."""
    why = _unreadable(row)
    if why:
        return _missed(row if isinstance(row, Mapping) else {}, why)
    try:
        calculated = calculate(row["calculation"], row["inputs"])
    except ImpossibleValue as refused:
        return _missed(row, str(refused))
    except (TypeError, ValueError, ArithmeticError, AttributeError) as failed:
        return _missed(row, f"The inputs cannot be worked with: {failed}.")
    return _result(row, _figures(row, calculated))


def agrees(published: Any, calculated: Any, tolerance: float) -> bool:
    """Whether a calculated figure, list or answer is the published one within a tolerance."""
    if _is_list(published) or _is_list(calculated):
        return (
            _is_list(published)
            and _is_list(calculated)
            and len(published) == len(calculated)
            and all(agrees(*pair, tolerance) for pair in zip(published, calculated, strict=True))
        )
    if isinstance(published, bool) or isinstance(calculated, bool):
        return published is calculated
    if not (_is_number(published) and _is_number(calculated)):
        return False
    return abs(published - calculated) <= tolerance + FLOATING_POINT


def _figures(row: Mapping[str, Any], calculated: Outputs) -> tuple[Figure, ...]:
    tolerances = row.get("tolerance") or {}
    return tuple(
        _figure(key, published, calculated.get(key), tolerances.get(key, 0.0))
        for key, published in row["expected"].items()
    )


def _figure(key: str, published: Any, calculated: Any, tolerance: float) -> Figure:
    return Figure(key, published, calculated, tolerance, agrees(published, calculated, tolerance))


def _result(row: Mapping[str, Any], figures: tuple[Figure, ...]) -> RowResult:
    off = [figure for figure in figures if not figure.agrees]
    return RowResult(**_named(row), figures=figures, passed=not off, why=_sentence(off))


def _sentence(off: Sequence[Figure]) -> str:
    if not off:
        return ""
    first = off[0]
    if first.calculated is None:
        return f"The calculation gives no {first.key}."
    return (
        f"{first.key} comes to {first.calculated}, published is {first.published} (within {first.tolerance})."
    )


def _missed(row: Mapping[str, Any], why: str) -> RowResult:
    expected = row.get("expected")
    published = expected if isinstance(expected, Mapping) else {}
    figures = tuple(Figure(key, value, None, 0.0, False) for key, value in published.items())
    return RowResult(**_named(row), figures=figures, passed=False, why=why)


def _named(row: Mapping[str, Any]) -> dict[str, str]:
    return {key: str(row.get(key, "")) for key in ("id", "title", "calculation", "source", "kind")}


def _unreadable(row: Any) -> str:
    """What is wrong with the shape of a row, or nothing."""
    if not isinstance(row, Mapping):
        return "The row is not a set of named fields."
    if not isinstance(row.get("calculation"), str):
        return "The row names no calculation."
    for key in ("inputs", "expected"):
        if not isinstance(row.get(key), Mapping):
            return f"The row has no {key}."
    if not row["expected"]:
        return "The row expects nothing."
    return _bad_tolerance(row.get("tolerance") or {})


def _bad_tolerance(tolerances: Any) -> str:
    if not isinstance(tolerances, Mapping):
        return "The tolerance is not a number for each figure."
    bad = [key for key, one in tolerances.items() if not _is_number(one) or not one >= 0]
    return f"The tolerance of {bad[0]} is not a number from 0." if bad else ""


def _is_list(value: Any) -> bool:
    return isinstance(value, list | tuple)


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
