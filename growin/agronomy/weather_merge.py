"""Days that come in beside days that are kept: new, the same, filled up, or different.

A measured day takes the place of an estimated one as a whole, never the other way round. Of two
measured days only the figures that come in are compared; what the day has beside them stays.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date

from growin.agronomy.fields import DetailError
from growin.agronomy.weather_day import WEATHER, clean_weather

NEW, SAME, FILLED, SETTLED = "new", "same", "filled", "settled"
DIFFERENT, DIFFERENT_BY_HAND, LEFT = "different", "different by hand", "left"


@dataclass(frozen=True)
class Kept:
    """One day as it is kept: its figures, whether somebody wrote it by hand, whether it is an estimate."""

    figures: Mapping[str, float] = field(default_factory=dict)
    is_by_hand: bool = False
    is_estimated: bool = False


@dataclass(frozen=True)
class Meeting:
    """A day that comes in and what it meets. ``changes`` holds [kept, coming] by figure."""

    on: date
    kind: str
    coming: Mapping[str, float]
    kept: Kept | None = None
    changes: Mapping[str, list] = field(default_factory=dict)

    @property
    def replaced(self) -> dict[str, list]:
        """The changes of figures that are kept already."""
        return {key: pair for key, pair in self.changes.items() if pair[0] is not None}

    def outcome(self, takes: bool) -> dict | None:
        """All figures of the day afterwards, cleaned; None where it stays as it is.

        ``takes``: what differs is taken from what comes in, else only what is missing.
        """
        if self.kind in (SAME, LEFT):
            return None
        before = dict(self.kept.figures) if self.kept and self.kind != SETTLED else {}
        coming = dict(self.coming)
        if self.kind in (DIFFERENT, DIFFERENT_BY_HAND) and not takes:
            coming = {key: value for key, value in coming.items() if key not in before}
        return _together(before, coming)


def meetings(
    coming: Mapping[date, Mapping[str, float]], kept: Mapping[date, Kept], is_estimated: bool = False
) -> Iterator[Meeting]:
    """Every day that comes in, in its order, and what it meets."""
    for on, figures in coming.items():
        there = kept.get(on)
        changes = _changes(figures, there.figures) if there else {}
        yield Meeting(on, _kind(there, changes, is_estimated), figures, there, changes)


def _changes(coming: Mapping[str, float], before: Mapping[str, float]) -> dict[str, list]:
    return {
        key: [before.get(key), value]
        for key, value in coming.items()
        if before.get(key) is None or round(before[key], 1) != round(value, 1)
    }


def _kind(there: Kept | None, changes: Mapping[str, list], is_estimated: bool) -> str:
    if there is None:
        return NEW
    if there.is_estimated != is_estimated:
        return SETTLED if there.is_estimated else LEFT
    if any(before is not None for before, _ in changes.values()):
        return DIFFERENT_BY_HAND if there.is_by_hand else DIFFERENT
    return FILLED if changes else SAME


def _together(before: Mapping[str, float], coming: Mapping[str, float]) -> dict | None:
    """Both, cleaned; None when they cannot be of one day, or nothing would change."""
    if not coming:
        return None
    joined = {**_as_read(before, coming), **coming}
    try:
        return clean_weather({key: joined.get(key) for key in WEATHER})
    except DetailError:
        return None


def _as_read(before: Mapping[str, float], coming: Mapping[str, float]) -> dict[str, float]:
    """A mean that was but the middle of extremes falls with them."""
    if "mean_c" in coming or not {"min_c", "max_c"} & coming.keys() or "mean_c" not in before:
        return dict(before)
    middle = round((before.get("min_c", 99) + before.get("max_c", 99)) / 2, 1)
    is_middle = abs(before["mean_c"] - middle) < 0.11
    return {key: value for key, value in before.items() if key != "mean_c" or not is_middle}
