"""Whether a dressing sand, or the soil of a turf, suits the rootzone it will lie on.

A layer finer than what lies under it holds water; one much coarser dries and will not mix.
Gradings are curves: pairs of sieve in mm and per cent by weight passing, as the laboratory prints them.
"""

from collections.abc import Mapping
from typing import NamedTuple

from growin.agronomy.build_facts import MaterialFacts
from growin.agronomy.construction_defaults import DEFAULTS as BUILD
from growin.agronomy.defaults import OUR_JUDGEMENT, Default, table
from growin.agronomy.plain_words import amount

FINES_MM, COARSE_MM, HALF = 0.15, 1.0, 50.0

DEFAULTS = table(
    Default(
        "layering.coarser_over_percent", 10, "%", "Sand over 1 mm above the rootzone's, most", 0, 50,
        OUR_JUDGEMENT, "same grading as the rootzone, or it layers: USGA",
    ),
    Default(
        "layering.middle_apart", 1.5, "", "Middle sizes (D50) apart, times, most", 1, 4,
        OUR_JUDGEMENT, "same grading as the rootzone, or it layers: USGA",
    ),
)  # fmt: skip
FINER = "build.turf_fines_over_percent"


class Fit(NamedTuple):
    """Whether a material suits (None: not known) and why, a sentence for each thing that was compared."""

    suits: bool | None
    sentences: tuple[str, ...]


class _Compared(NamedTuple):
    """One thing compared: kept or not, None where a curve does not reach it."""

    kept: bool | None
    sentence: str


def fits_rootzone(
    over: MaterialFacts, rootzone: MaterialFacts, settings: Mapping[str, float] | None = None
) -> Fit:
    """Whether a material laid on the rootzone is neither finer nor much coarser than it.

    Compared are what is finer than 0.15 mm, what is coarser than 1 mm and the middle size D50.

    Parameters
    ----------
    over : the dressing sand or the turf's soil, with its grading.
    rootzone : with its grading.
    settings : overrides of :data:`DEFAULTS` and of ``build.turf_fines_over_percent`` by key.

    Source: our judgement on the rule that sand must have the grading of the rootzone (USGA).
    """
    kept = {key: one.value for key, one in (DEFAULTS | {FINER: BUILD[FINER]}).items()} | dict(settings or {})
    compared = [_finer(over, rootzone, kept), _coarser(over, rootzone, kept), _middle(over, rootzone, kept)]
    known = [one.kept for one in compared]
    suits = False if False in known else None if None in known else True
    return Fit(suits, tuple(one.sentence for one in compared if one.sentence) or ("No grading to compare.",))


def _finer(over: MaterialFacts, rootzone: MaterialFacts, kept: Mapping[str, float]) -> _Compared:
    ours, theirs = over.passing_percent(FINES_MM), rootzone.passing_percent(FINES_MM)
    if ours is None or theirs is None:
        return _Compared(None, "")
    words = f"{amount(ours, '%')} finer than 0.15 mm, {amount(theirs, '%')} in the rootzone"
    if ours - theirs > kept[FINER]:
        return _Compared(False, f"{words}: finer than the rootzone, it holds water on top.")
    return _Compared(True, f"{words}.")


def _coarser(over: MaterialFacts, rootzone: MaterialFacts, kept: Mapping[str, float]) -> _Compared:
    ours, theirs = over.passing_percent(COARSE_MM), rootzone.passing_percent(COARSE_MM)
    if ours is None or theirs is None:
        return _Compared(None, "")
    words = f"{amount(100 - ours, '%')} coarser than 1 mm, {amount(100 - theirs, '%')} in the rootzone"
    if theirs - ours > kept["layering.coarser_over_percent"]:
        return _Compared(False, f"{words}: coarser than the rootzone, it dries and does not mix.")
    return _Compared(True, f"{words}.")


def _middle(over: MaterialFacts, rootzone: MaterialFacts, kept: Mapping[str, float]) -> _Compared:
    ours, theirs = over.diameter_mm(HALF), rootzone.diameter_mm(HALF)
    if ours is None or theirs is None:
        return _Compared(None, "")
    words = f"Middle size {amount(ours, 'mm', 2)}, {amount(theirs, 'mm', 2)} in the rootzone"
    if max(ours, theirs) / min(ours, theirs) > kept["layering.middle_apart"]:
        return _Compared(False, f"{words}: too far apart to lie as one.")
    return _Compared(True, f"{words}.")
